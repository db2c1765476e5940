package dev.cupwarden.host.users;

import dev.cupwarden.host.HostException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * Hashes passwords by Argon2id (RFC 9106), so that nobody who reads the store can use them. One at
 * a time: each takes its 19 MiB meanwhile, and many at once would exhaust a small host.
 */
public final class Passwords {
  /** Shorter ones are guessed. */
  public static final int SHORTEST = 12;

  private static final int LONGEST = 256;

  /** 19 MiB, 2 passes, 1 lane: OWASP's password storage advice, 2024. */
  private static final int MEMORY_KIB = 19_456;

  private static final int PASSES = 2;
  private static final int LANES = 1;
  private static final int HASH_BYTES = 32;
  private static final int SALT_BYTES = 16;

  /** Of a hash in the store: more would exhaust a small host, whose whole heap is twice that. */
  private static final int MOST_MEMORY_KIB = 32_768;

  private static final int MOST_PASSES = 10;
  private static final SecureRandom RANDOM = new SecureRandom();

  /** 7 to 66 bytes in Base64 without padding, where one character alone is no byte. */
  private static final String BYTES = "((?:[A-Za-z0-9+/]{4}){2,21}[A-Za-z0-9+/]{2,4})";

  /** The string form of Argon2's reference implementation. */
  private static final Pattern FORM =
      Pattern.compile(
          "\\$argon2id\\$v=19\\$m=([1-9]\\d{0,8}),t=([1-9]\\d{0,3}),p=([1-9]\\d{0,2})"
              + ("\\$" + BYTES).repeat(2));

  private Passwords() {}

  /**
   * A hash with its parameters and a salt of its own.
   *
   * @throws HostException if the password is too short or too long
   */
  public static synchronized String hash(char[] password) {
    if (password.length < SHORTEST || password.length > LONGEST) {
      throw new HostException(
          "A password has "
              + SHORTEST
              + " to "
              + LONGEST
              + " characters; this has "
              + password.length
              + ".");
    }
    byte[] salt = new byte[SALT_BYTES];
    RANDOM.nextBytes(salt);
    Base64.Encoder base64 = Base64.getEncoder().withoutPadding();
    return "$argon2id$v=19$m=%d,t=%d,p=%d$%s$%s"
        .formatted(
            MEMORY_KIB,
            PASSES,
            LANES,
            base64.encodeToString(salt),
            base64.encodeToString(argon2id(password, salt, MEMORY_KIB, PASSES, LANES, HASH_BYTES)));
  }

  /** True if the password is the one that was hashed, with whatever parameters. */
  public static synchronized boolean matches(char[] password, String hash) {
    Matcher form = FORM.matcher(hash);
    if (password.length > LONGEST || !form.matches()) {
      return false;
    }
    // From the hash itself: it may be older than the parameters above.
    int memoryKib = Integer.parseInt(form.group(1));
    int passes = Integer.parseInt(form.group(2));
    if (memoryKib > MOST_MEMORY_KIB || passes > MOST_PASSES) {
      return false;
    }
    byte[] salt = Base64.getDecoder().decode(form.group(4));
    byte[] expected = Base64.getDecoder().decode(form.group(5));
    int lanes = Integer.parseInt(form.group(3));
    return MessageDigest.isEqual(
        expected, argon2id(password, salt, memoryKib, passes, lanes, expected.length));
  }

  private static byte[] argon2id(
      char[] password, byte[] salt, int memoryKib, int passes, int lanes, int bytes) {
    Argon2BytesGenerator generator = new Argon2BytesGenerator();
    generator.init(
        new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
            .withVersion(Argon2Parameters.ARGON2_VERSION_13)
            .withSalt(salt)
            .withMemoryAsKB(memoryKib)
            .withIterations(passes)
            .withParallelism(lanes)
            .build());
    byte[] hash = new byte[bytes];
    generator.generateBytes(password, hash);
    return hash;
  }
}
