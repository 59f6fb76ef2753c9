package rakelight.picture;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.Pointer;
import com.sun.jna.ptr.LongByReference;
import com.sun.jna.ptr.PointerByReference;
import java.nio.file.Path;

/**
 * What is called of FFmpeg's libavcodec 62 and libavutil 60: names and meanings are those of their
 * public headers. Structures are reached by functions and named options, save for the beginning of
 * a frame, which has stayed as it is since the first version (frame.h).
 */
record Ffmpeg(Codec codec, Util util) {
  private static final int LOG_QUIET = -8;

  private static final class Loaded {
    private static final Ffmpeg FFMPEG = load();
  }

  /** libavcodec. */
  interface Codec extends Library {
    Pointer avcodec_find_decoder_by_name(String name);

    Pointer avcodec_alloc_context3(Pointer decoder);

    int avcodec_open2(Pointer context, Pointer decoder, Pointer options);

    int avcodec_send_packet(Pointer context, Pointer packet);

    int avcodec_receive_frame(Pointer context, Pointer frame);

    void avcodec_flush_buffers(Pointer context);

    void avcodec_free_context(PointerByReference context);

    Pointer av_packet_alloc();

    int av_packet_from_data(Pointer packet, Pointer data, int size);

    void av_packet_free(PointerByReference packet);
  }

  /** libavutil. */
  interface Util extends Library {
    Pointer av_malloc(long size);

    Pointer av_frame_alloc();

    void av_frame_free(PointerByReference frame);

    String av_get_pix_fmt_name(int format);

    int av_opt_set_int(Pointer object, String name, long value, int flags);

    int av_opt_get_int(Pointer object, String name, int flags, LongByReference value);

    void av_log_set_level(int level);
  }

  /**
   * Loads the libraries, once.
   *
   * @throws NativesMissingException if the add-on isn't here or doesn't load
   */
  static Ffmpeg get() {
    return Loaded.FFMPEG;
  }

  private static Ffmpeg load() {
    Natives.Decoders files = Natives.decoders();
    Ffmpeg ffmpeg = new Ffmpeg(load(files.codec(), Codec.class), load(files.util(), Util.class));
    ffmpeg.util.av_log_set_level(LOG_QUIET);
    return ffmpeg;
  }

  private static <L extends Library> L load(Path file, Class<L> library) {
    return Native.load(file.toString(), library);
  }
}
