"""The line finder: training pictures, network, training, decoding, evaluation."""
