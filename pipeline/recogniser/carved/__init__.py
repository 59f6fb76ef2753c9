"""Training of the carved-letter recogniser: text as cut, stone as rendered, the network, its export."""
