package rakelight.picture;

import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.net.URLConnection;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.jar.JarEntry;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The one place where native libraries are loaded: OpenCV, ONNX Runtime, Tesseract with Leptonica,
 * and FFmpeg's decoders where somebody laid them beside the program.
 *
 * <p>Each is unpacked once into a folder of this user's cache, named after library, version and the
 * checksum its jar states, and loaded from there by every later run (39 ms against 0.3 to 0.6 s for
 * unpacking OpenCV anew). A folder appears by a rename, so that two programs starting together
 * never see half a library; the one that comes second throws its copy away.
 *
 * <p>The cache is {@code $XDG_CACHE_HOME/rakelight} or {@code ~/.cache/rakelight}, {@code
 * ~/Library/Caches/rakelight} on a Mac, {@code %LOCALAPPDATA%\rakelight\cache} on Windows; the
 * system property {@value #FOLDER_PROPERTY} overrides it. All of it may be deleted.
 */
public final class Natives {
  /** System property naming another folder for unpacked libraries. */
  public static final String FOLDER_PROPERTY = "rakelight.natives";

  private static final String OPENCV_VERSION = "4.9.0";
  private static final String ONNXRUNTIME_VERSION = "1.23.2";
  private static final String TESSERACT_VERSION = "5.5.1";

  private static final String FFMPEG_VERSION = "8.0.1";
  private static final String FFMPEG_ARTIFACT = "ffmpeg-8.0.1-1.5.13-";

  private static final Object LOCK = new Object();
  private static boolean openCvLoaded;
  private static boolean onnxRuntimePointed;
  private static @Nullable Path tesseractFolder;

  private Natives() {}

  /**
   * The folder in which unpacked libraries are kept; it may not exist yet.
   *
   * <p>Other libraries that insist on unpacking themselves are pointed here too.
   */
  public static Path cacheFolder() {
    String override = System.getProperty(FOLDER_PROPERTY);
    if (override != null && !override.isBlank()) {
      return Path.of(override).toAbsolutePath();
    }
    Path home = Path.of(System.getProperty("user.home", ".")).toAbsolutePath();
    Platform platform = Platform.current();
    if (platform.isWindows()) {
      String local = System.getenv("LOCALAPPDATA");
      return (local == null ? home.resolve("AppData").resolve("Local") : Path.of(local))
          .resolve("rakelight")
          .resolve("cache");
    }
    if (platform.isMac()) {
      return home.resolve("Library").resolve("Caches").resolve("rakelight");
    }
    String xdg = System.getenv("XDG_CACHE_HOME");
    return (xdg == null || xdg.isBlank() ? home.resolve(".cache") : Path.of(xdg))
        .resolve("rakelight");
  }

  /** Loads OpenCV; the second call does nothing. */
  public static void openCv() {
    synchronized (LOCK) {
      if (openCvLoaded) {
        return;
      }
      Platform platform = Platform.current();
      String file =
          platform.isWindows() ? "opencv_java490.dll" : "lib" + platform.file("opencv_java490");
      Path folder =
          unpack(
              "OpenCV",
              OPENCV_VERSION,
              Map.of(file, "nu/pattern/opencv/" + platform.openCv() + "/" + file));
      load("OpenCV", OPENCV_VERSION, folder.resolve(file));
      openCvLoaded = true;
    }
  }

  /** Points ONNX Runtime at its unpacked library; to be called before its first class is used. */
  public static void onnxRuntime() {
    synchronized (LOCK) {
      if (onnxRuntimePointed) {
        return;
      }
      Platform platform = Platform.current();
      Map<String, String> files = new TreeMap<>();
      for (String name : List.of("onnxruntime", "onnxruntime4j_jni")) {
        String file = platform.isWindows() ? name + ".dll" : "lib" + platform.file(name);
        files.put(file, "ai/onnxruntime/native/" + platform.onnxRuntime() + "/" + file);
      }
      Path folder = unpack("ONNX Runtime", ONNXRUNTIME_VERSION, files);
      System.setProperty("onnxruntime.native.path", folder.toString());
      onnxRuntimePointed = true;
    }
  }

  /**
   * Unpacks Tesseract, Leptonica and the English data, and points JNA at them; to be called before
   * any JNA class is used.
   *
   * @return the folder that holds {@code eng.traineddata}
   */
  public static Path tesseract() {
    synchronized (LOCK) {
      if (tesseractFolder != null) {
        return tesseractFolder;
      }
      Platform platform = Platform.current();
      Map<String, String> files = new TreeMap<>();
      String tesseract = platform.folder("tesseract");
      String leptonica = platform.folder("leptonica");
      if (platform.isWindows()) {
        // The binding asks for the first name, the library's own dependants for the second.
        files.put("libtesseract551.dll", tesseract + "libtesseract55.dll");
        files.put("libtesseract55.dll", tesseract + "libtesseract55.dll");
        for (String dll :
            List.of(
                "libleptonica.dll",
                "libgcc_s_seh-1.dll",
                "libstdc++-6.dll",
                "libwinpthread-1.dll")) {
          files.put(dll, leptonica + dll);
        }
      } else if (platform.isMac()) {
        files.put("libtesseract.dylib", tesseract + "libtesseract.5.5.dylib");
        files.put("libleptonica.6.dylib", leptonica + "libleptonica.6.dylib");
      } else {
        files.put("libtesseract.so.5.5", tesseract + "libtesseract.so.5.5");
        files.put("libleptonica.so.6", leptonica + "libleptonica.so.6");
      }
      files.put("eng.traineddata", "tessdata/eng.traineddata");
      Path folder = unpack("Tesseract", TESSERACT_VERSION, files);
      System.setProperty("jna.library.path", folder.toString());
      tesseractFolder = folder;
      return folder;
    }
  }

  /**
   * FFmpeg's libraries, unpacked.
   *
   * @param codec libavcodec
   * @param util libavutil
   */
  record Decoders(Path codec, Path util) {}

  /** Whether FFmpeg's decoders, which the jar doesn't carry, were laid beside it. */
  public static boolean hasDecoders() {
    return resource(Platform.current().ffmpeg("avcodec", 62)).isPresent();
  }

  /** What to do where {@link #hasDecoders} says no. */
  public static String decodersMissing() {
    return "HEIC and AVIF are shown with "
        + FFMPEG_ARTIFACT
        + Platform.current().byteDeco()
        + ".jar beside rakelight.jar, and it isn't there; docs/photographs.md says where it comes"
        + " from";
  }

  /** Unpacks FFmpeg's decoders and loads what they need. */
  static Decoders decoders() {
    tesseract(); // JNA looks only once where libraries lie.
    synchronized (LOCK) {
      Platform platform = Platform.current();
      // In the order in which they need each other; the first three are of Linux on Intel only.
      List<String> resources =
          Stream.of(
                  platform.folder("ffmpeg") + "libdrm.so.2",
                  platform.folder("ffmpeg") + "libva.so.2",
                  platform.folder("ffmpeg") + "libva-drm.so.2",
                  platform.ffmpeg("avutil", 60),
                  platform.ffmpeg("swresample", 6),
                  platform.ffmpeg("avcodec", 62))
              .filter(name -> resource(name).isPresent())
              .toList();
      Map<String, String> files = new TreeMap<>();
      resources.forEach(name -> files.put(fileName(name), name));
      Path folder = unpack("FFmpeg", FFMPEG_VERSION, files);
      resources.forEach(name -> load("FFmpeg", FFMPEG_VERSION, folder.resolve(fileName(name))));
      return new Decoders(
          folder.resolve(fileName(platform.ffmpeg("avcodec", 62))),
          folder.resolve(fileName(platform.ffmpeg("avutil", 60))));
    }
  }

  private static Optional<URL> resource(String name) {
    return Optional.ofNullable(Natives.class.getClassLoader().getResource(name));
  }

  private static String fileName(String resource) {
    return resource.substring(resource.lastIndexOf('/') + 1);
  }

  /**
   * Checks, where the platform tells (Linux), that every mapped library whose file name begins like
   * this one lies in our cache and not on the system.
   *
   * @param prefix such as "libtesseract"
   * @throws NativesMissingException if a library of that name was taken from elsewhere
   */
  public static void requireOurs(String prefix) {
    Path maps = Path.of("/proc/self/maps");
    if (!Files.isReadable(maps)) {
      return;
    }
    Path cache = cacheFolder();
    try (Stream<String> lines = Files.lines(maps, StandardCharsets.ISO_8859_1)) {
      List<String> foreign =
          lines
              .filter(line -> line.indexOf('/') >= 0)
              .map(line -> line.substring(line.indexOf('/')))
              .filter(path -> path.substring(path.lastIndexOf('/') + 1).startsWith(prefix))
              .filter(path -> !sameFolderTree(path, cache))
              .distinct()
              .toList();
      if (!foreign.isEmpty()) {
        throw new NativesMissingException(
            prefix
                + " was loaded from "
                + foreign.get(0)
                + " and not from "
                + cache
                + ". Unset jna.library.path and LD_PRELOAD, and start again.",
            new UnsatisfiedLinkError(foreign.get(0)));
      }
    } catch (IOException e) {
      throw new NativesMissingException("Can't read " + maps + ": " + e.getMessage(), e);
    }
  }

  /** The map lists bytes; under a locale that can't say them, the tail of the path must do. */
  private static boolean sameFolderTree(String mapped, Path cache) {
    String utf8 = new String(mapped.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
    return utf8.startsWith(cache.toString())
        || (utf8.contains("/" + cache.getFileName() + "/")
            && utf8.contains("-" + TESSERACT_VERSION + "-"));
  }

  private static void load(String library, String version, Path file) {
    try {
      System.load(file.toString());
    } catch (UnsatisfiedLinkError e) {
      throw new NativesMissingException(
          library
              + " "
              + version
              + " doesn't load from "
              + file
              + ": "
              + e.getMessage()
              + ". "
              + Platform.current().advice(),
          e);
    }
  }

  /** Unpacks resources (by file name) unless that was done before; returns their folder. */
  private static Path unpack(String library, String version, Map<String, String> resources) {
    Path cache = cacheFolder();
    Map<String, URL> urls = new TreeMap<>();
    List<String> missing = new ArrayList<>();
    for (Map.Entry<String, String> resource : resources.entrySet()) {
      URL url = Natives.class.getClassLoader().getResource(resource.getValue());
      if (url == null) {
        missing.add(resource.getValue());
      } else {
        urls.put(resource.getKey(), url);
      }
    }
    String what = library + " " + version;
    if (!missing.isEmpty()) {
      throw new NativesMissingException(
          what
              + " for "
              + Platform.current()
              + " isn't in this jar (looked for "
              + String.join(", ", missing)
              + "). Use the jar made for this platform or the one for every platform.",
          new IOException(missing.get(0)));
    }
    try {
      long checksum = 0;
      for (URL url : urls.values()) {
        checksum = checksum * 31 + statedChecksum(url);
      }
      Path folder =
          cache.resolve(
              String.format(
                  Locale.ROOT,
                  "%s-%s-%016x",
                  library.toLowerCase(Locale.ROOT).replace(" ", ""),
                  version,
                  checksum));
      if (!Files.isDirectory(folder)) {
        unpackOnce(urls, cache, folder);
      }
      return folder;
    } catch (IOException e) {
      throw new NativesMissingException(
          what
              + " can't be unpacked into "
              + cache
              + ": "
              + e.getMessage()
              + ". Make room there or name another folder with -D"
              + FOLDER_PROPERTY
              + "=FOLDER.",
          e);
    }
  }

  private static void unpackOnce(Map<String, URL> urls, Path cache, Path folder)
      throws IOException {
    Files.createDirectories(cache);
    Path half = Files.createTempDirectory(cache, "unpacking-");
    try {
      for (Map.Entry<String, URL> entry : urls.entrySet()) {
        try (InputStream in = entry.getValue().openStream()) {
          Files.copy(in, half.resolve(entry.getKey()));
        }
      }
      try {
        Files.move(half, folder, StandardCopyOption.ATOMIC_MOVE);
      } catch (IOException e) {
        if (!Files.isDirectory(folder)) {
          throw e;
        }
        // Another program was quicker; its copy is as good.
      }
    } finally {
      delete(half);
    }
  }

  private static void delete(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    }
  }

  /** The checksum the jar's directory states for an entry; its size where it isn't in a jar. */
  private static long statedChecksum(URL url) throws IOException {
    URLConnection connection = url.openConnection();
    if (connection instanceof JarURLConnection jar) {
      JarEntry entry = Objects.requireNonNull(jar.getJarEntry(), url::toString);
      return entry.getCrc() ^ (entry.getSize() << 32);
    }
    return connection.getContentLengthLong();
  }

  /** A platform whose libraries some build of the jar carries. */
  private enum Platform {
    LINUX_INTEL("linux/x86_64", "linux-x64", "linux-x86_64"),
    LINUX_ARM("linux/ARMv8", "linux-aarch64", "linux-arm64"),
    WINDOWS_INTEL("windows/x86_64", "win-x64", "windows-x86_64"),
    MAC_INTEL("osx/x86_64", "osx-x64", "macosx-x86_64"),
    MAC_ARM("osx/ARMv8", "osx-aarch64", "macosx-arm64");

    private final String openCv;
    private final String onnxRuntime;
    private final String byteDeco;

    Platform(String openCv, String onnxRuntime, String byteDeco) {
      this.openCv = openCv;
      this.onnxRuntime = onnxRuntime;
      this.byteDeco = byteDeco;
    }

    String openCv() {
      return openCv;
    }

    String onnxRuntime() {
      return onnxRuntime;
    }

    String byteDeco() {
      return byteDeco;
    }

    /** Where the artifacts of the JavaCPP presets keep a library's files. */
    String folder(String library) {
      return "org/bytedeco/" + library + "/" + byteDeco + "/";
    }

    String ffmpeg(String name, int version) {
      return folder("ffmpeg")
          + (isWindows()
              ? name + "-" + version + ".dll"
              : isMac()
                  ? "lib" + name + "." + version + ".dylib"
                  : "lib" + name + ".so." + version);
    }

    boolean isWindows() {
      return this == WINDOWS_INTEL;
    }

    boolean isMac() {
      return this == MAC_INTEL || this == MAC_ARM;
    }

    String file(String name) {
      return name + (isWindows() ? ".dll" : isMac() ? ".dylib" : ".so");
    }

    String advice() {
      return isWindows()
          ? "Install the Microsoft Visual C++ runtime, 2015 or later."
          : isMac()
              ? "It needs macOS 11 or later."
              : "It needs glibc 2.34 or later (Debian 12, Ubuntu 22.04, RHEL 9 or newer); `ldd"
                  + " --version` tells which is there. Musl systems such as Alpine aren't served.";
    }

    static Platform current() {
      String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
      String arch = System.getProperty("os.arch", "").toLowerCase(Locale.ROOT);
      boolean arm = arch.equals("aarch64") || arch.equals("arm64");
      if (os.contains("win")) {
        return WINDOWS_INTEL;
      }
      if (os.contains("mac")) {
        return arm ? MAC_ARM : MAC_INTEL;
      }
      return arm ? LINUX_ARM : LINUX_INTEL;
    }
  }
}
