"""Small faults put into the code one at a time; the tests must notice them."""
