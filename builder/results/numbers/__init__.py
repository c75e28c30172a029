"""Every computed number with its workings: pools, intervals, absolute effects."""
