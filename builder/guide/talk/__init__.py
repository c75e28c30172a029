"""What is taken to a case conference, composed from what the pages say."""
