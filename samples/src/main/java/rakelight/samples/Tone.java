package rakelight.samples;

/** Between linear light and eight-bit sRGB (IEC 61966-2-1). */
final class Tone {
  private static final float[] TO_LINEAR = new float[256];
  private static final byte[] TO_SRGB = new byte[4097];

  static {
    for (int i = 0; i < 256; i++) {
      double c = i / 255.0;
      TO_LINEAR[i] = (float) (c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
    }
    for (int i = 0; i <= 4096; i++) {
      // Squared spacing keeps the steps small in the shadows.
      double l = (i / 4096.0) * (i / 4096.0);
      double c = l <= 0.0031308 ? 12.92 * l : 1.055 * Math.pow(l, 1 / 2.4) - 0.055;
      TO_SRGB[i] = (byte) Math.round(255 * c);
    }
  }

  private Tone() {}

  static float linear(int srgb) {
    return TO_LINEAR[srgb];
  }

  static int srgb(float linear) {
    if (linear <= 0) {
      return 0;
    }
    if (linear >= 1) {
      return 255;
    }
    return TO_SRGB[(int) (Math.sqrt(linear) * 4096)] & 255;
  }
}
