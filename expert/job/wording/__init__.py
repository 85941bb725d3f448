"""What the technician and the customer read, made from what is known."""
