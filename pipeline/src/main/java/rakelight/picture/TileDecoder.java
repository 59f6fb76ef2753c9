package rakelight.picture;

import com.sun.jna.Pointer;
import com.sun.jna.ptr.LongByReference;
import com.sun.jna.ptr.PointerByReference;
import java.nio.ByteBuffer;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.opencv.core.CvType;
import org.opencv.core.Mat;
import rakelight.photo.CodedPicture;
import rakelight.photo.CodedPicture.Coding;
import rakelight.photo.CodedPicture.Colour;
import rakelight.photo.PictureSource;

/** Decodes one coded tile after another. Owns native memory until it is closed. */
final class TileDecoder implements AutoCloseable {
  /** Decoders may read so much beyond the end (AV_INPUT_BUFFER_PADDING_SIZE). */
  private static final int PADDING_BYTES = 64;

  /** AVCOL_RANGE_JPEG. */
  private static final int FULL_RANGE = 2;

  private static final Pattern FORMAT =
      Pattern.compile("(gray|yuvj?420p|yuvj?422p|yuvj?444p)(?:(\\d\\d)le)?");

  private final Ffmpeg ffmpeg = Ffmpeg.get();
  private final Pointer context;
  private final Pointer frame;

  /**
   * The planes of a decoded tile, 8 bits a sample; they belong to the scope that was given.
   *
   * @param luminance as coded
   * @param blueness none in a grey picture
   * @param redness none in a grey picture
   */
  record Planes(Mat luminance, Optional<Mat> blueness, Optional<Mat> redness) {}

  TileDecoder(Coding coding) {
    Pointer decoder =
        ffmpeg
            .codec()
            .avcodec_find_decoder_by_name(
                switch (coding) {
                  case HEVC -> "hevc";
                  case AV1 -> "libaom-av1";
                });
    context = ffmpeg.codec().avcodec_alloc_context3(decoder);
    frame = ffmpeg.util().av_frame_alloc();
    ffmpeg.util().av_opt_set_int(context, "max_pixels", PictureSource.MOST_PIXELS, 0);
    if (ffmpeg.codec().avcodec_open2(context, decoder, Pointer.NULL) < 0) {
      close();
      throw new IllegalStateException("FFmpeg's decoder of " + coding + " can't be opened");
    }
  }

  /**
   * Decodes a tile.
   *
   * @param stream as {@link CodedPicture#stream} gives it
   * @return empty if it can't be decoded
   * @throws PictureException if its samples are laid out in a way that isn't read
   */
  Optional<Planes> decode(byte[] stream, NativeScope scope) throws PictureException {
    ffmpeg.codec().avcodec_flush_buffers(context);
    if (!send(stream) || ffmpeg.codec().avcodec_send_packet(context, Pointer.NULL) < 0) {
      return Optional.empty();
    }
    return ffmpeg.codec().avcodec_receive_frame(context, frame) < 0
        ? Optional.empty()
        : Optional.of(planes(scope));
  }

  /** How the colours of the tile decoded last are meant. */
  Colour colour() {
    return new Colour((int) option("colorspace"), option("color_range") == FULL_RANGE);
  }

  private long option(String name) {
    LongByReference value = new LongByReference();
    ffmpeg.util().av_opt_get_int(context, name, 0, value);
    return value.getValue();
  }

  private boolean send(byte[] stream) {
    Pointer data = ffmpeg.util().av_malloc((long) stream.length + PADDING_BYTES);
    data.write(0, stream, 0, stream.length);
    data.setMemory(stream.length, PADDING_BYTES, (byte) 0);
    Pointer packet = ffmpeg.codec().av_packet_alloc();
    try {
      return ffmpeg.codec().av_packet_from_data(packet, data, stream.length) >= 0
          && ffmpeg.codec().avcodec_send_packet(context, packet) >= 0;
    } finally {
      ffmpeg.codec().av_packet_free(new PointerByReference(packet));
    }
  }

  /** AVFrame begins: data[8], linesize[8], extended_data, width, height, nb_samples, format. */
  private Planes planes(NativeScope scope) throws PictureException {
    int width = frame.getInt(104);
    int height = frame.getInt(108);
    String name = ffmpeg.util().av_get_pix_fmt_name(frame.getInt(116));
    Matcher format = FORMAT.matcher(name);
    if (!format.matches()) {
      throw new PictureException(
          "its samples are laid out in a way that isn't read (" + name + ")");
    }
    int bits = format.group(2) == null ? 8 : Integer.parseInt(format.group(2));
    Mat luminance = plane(0, width, height, bits, scope);
    if (format.group(1).equals("gray")) {
      return new Planes(luminance, Optional.empty(), Optional.empty());
    }
    int halvedAcross = format.group(1).endsWith("444p") ? 0 : 1;
    int halvedDown = format.group(1).endsWith("420p") ? 1 : 0;
    int across = (width + halvedAcross) >> halvedAcross;
    int down = (height + halvedDown) >> halvedDown;
    return new Planes(
        luminance,
        Optional.of(plane(1, across, down, bits, scope)),
        Optional.of(plane(2, across, down, bits, scope)));
  }

  private Mat plane(int number, int width, int height, int bits, NativeScope scope) {
    int stride = frame.getInt(64 + 4L * number);
    ByteBuffer samples = frame.getPointer(8L * number).getByteBuffer(0, (long) stride * height);
    Mat coded =
        scope.own(
            new Mat(height, width, bits == 8 ? CvType.CV_8UC1 : CvType.CV_16UC1, samples, stride));
    Mat plane = scope.mat();
    coded.convertTo(plane, CvType.CV_8U, 1.0 / (1 << (bits - 8)));
    return plane;
  }

  @Override
  public void close() {
    ffmpeg.util().av_frame_free(new PointerByReference(frame));
    ffmpeg.codec().avcodec_free_context(new PointerByReference(context));
  }
}
