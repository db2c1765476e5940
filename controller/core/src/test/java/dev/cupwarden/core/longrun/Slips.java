package dev.cupwarden.core.longrun;

import java.util.Arrays;
import java.util.SplittableRandom;

/** Good input with slips in it: of a hand, of a disk, of a wire. */
public final class Slips {
  private static final String SIGNS = ":{}[]&*!\"'\t\n- #,.+|>~%@`\\0159eE";

  private final SplittableRandom random;

  public Slips(SplittableRandom random) {
    this.random = random;
  }

  /**
   * A text with one to six slips: a sign gone, another, one more, or a piece twice, elsewhere or
   * gone.
   */
  public String in(String good) {
    StringBuilder text = new StringBuilder(good);
    int slips = 1 + random.nextInt(random.nextInt(4) == 0 ? 6 : 2);
    for (int i = 0; i < slips && text.length() > 0; i++) {
      int at = random.nextInt(text.length());
      switch (random.nextInt(8)) {
        case 0, 1 -> text.deleteCharAt(at);
        case 2 -> text.setCharAt(at, (char) (1 + random.nextInt(127)));
        case 3 -> text.setCharAt(at, (char) random.nextInt(0x10000));
        case 4, 5 -> text.insert(at, SIGNS.charAt(random.nextInt(SIGNS.length())));
        case 6 -> text.insert(random.nextInt(text.length()), piece(text, at));
        default -> text.delete(at, at + random.nextInt(1 + Math.min(40, text.length() - at)));
      }
    }
    return random.nextInt(20) == 0
        ? text.substring(0, random.nextInt(text.length() + 1))
        : "" + text;
  }

  private String piece(StringBuilder text, int at) {
    return text.substring(at, Math.min(text.length(), at + 1 + random.nextInt(80)));
  }

  /** Bytes with one to eight of them changed, or cut short, or with a torn rest behind them. */
  public byte[] in(byte[] good) {
    byte[] bytes = good.clone();
    int kind = random.nextInt(4);
    if (kind == 0) {
      return Arrays.copyOf(bytes, random.nextInt(bytes.length + 1));
    }
    if (kind == 1) {
      bytes = Arrays.copyOf(bytes, bytes.length + 1 + random.nextInt(200));
      for (int i = good.length; i < bytes.length; i++) {
        bytes[i] = (byte) random.nextInt();
      }
      return bytes;
    }
    for (int i = 0; i <= random.nextInt(8) && bytes.length > 0; i++) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt();
    }
    return bytes;
  }
}
