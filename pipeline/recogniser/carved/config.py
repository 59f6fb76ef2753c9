"""The numbers of the training run. Nothing here is read when the weights are used."""

SEED = 20
# Mask width in columns -> lines in a batch; about the same number of pixels each. Widths are multiples
# of 32, so that the photographed line, three quarters of the size, divides into JPEG blocks. Many
# widths, because what a line leaves of its width is rendered and read for nothing.
BATCH_LINES = {192: 880, 320: 528, 448: 376, 576: 296, 704: 240, 896: 188, 1120: 152, 1408: 120}

LEARNING_RATE = 1.2e-3  # peak; cosine down to 1.5 per cent of it
WARM_UP_STEPS = 400
WEIGHT_DECAY = 0.02
GRADIENT_LIMIT = 5.0
AVERAGE_DECAY = 0.998  # of the averaged weights, per step

# Wear, and all else that spoils a picture, start low and grow to the most over the first steps, or CTC
# finds nothing to hold on to.
HARDENING_STEPS = 1500
LEAST_WEAR, MOST_WEAR = 0.25, 0.95
LEAST_SEVERITY, MOST_SEVERITY = 0.35, 1.0

SAVE_SECONDS = 60.0
LOG_SECONDS = 15.0
