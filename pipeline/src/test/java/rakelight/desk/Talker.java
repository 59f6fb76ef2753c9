package rakelight.desk;

/** A program that says what it was told to say, waits, and ends with a code. */
final class Talker {
  private Talker() {}

  public static void main(String[] words) throws InterruptedException {
    for (int i = 2; i < words.length; i++) {
      System.out.println(words[i]);
    }
    Thread.sleep(Long.parseLong(words[1]));
    System.exit(Integer.parseInt(words[0]));
  }
}
