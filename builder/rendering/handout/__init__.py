"""The sheet that is handed out, as tagged PDF."""
