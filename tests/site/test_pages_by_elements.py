"""The pages of patterns, rules and all charts by their elements."""
