"""The writing desk: what a page in a browser asks of this program about one paper that is typed there."""
