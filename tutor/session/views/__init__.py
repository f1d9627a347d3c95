"""Views: what is on the screen, made from the session; plain data that the window draws."""
