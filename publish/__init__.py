"""Truths to paper and files: views, pages, words, writers and the command line."""
