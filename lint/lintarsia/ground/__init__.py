"""What knows nothing of knitting: values, trouble, places in a text, files replaced whole or shipped."""
