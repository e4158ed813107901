"""What side_by_side.py is made of."""
