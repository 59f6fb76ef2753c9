"""The numbers of the training run. Nothing here is read when the weights are used."""

SEED = 20
# Mask width in columns -> lines in a batch; about the same number of pixels each. Widths are multiples
# of 32, so that the photographed line, three quarters of the size, divides into JPEG blocks.
BATCH_LINES = {256: 640, 448: 384, 704: 240, 1024: 160, 1408: 120}

LEARNING_RATE = 1.2e-3  # peak; cosine down to 1.5 per cent of it
WARM_UP_STEPS = 400
WEIGHT_DECAY = 0.02
GRADIENT_LIMIT = 5.0
AVERAGE_DECAY = 0.998  # of the averaged weights, per step

# Wear starts low and grows to the most over the first steps, or CTC finds nothing to hold on to.
WEAR_GROWS_STEPS = 1500
MOST_WEAR = 0.95

SAVE_SECONDS = 60.0
LOG_SECONDS = 15.0
