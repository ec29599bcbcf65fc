"""Chart to plan: runs, links, the optimal cover, yarn lengths, line-ups, gaps. Pure functions."""
