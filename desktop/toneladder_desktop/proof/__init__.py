"""A pulled proof: laid over its plan, read tone by tone, learnt from."""
