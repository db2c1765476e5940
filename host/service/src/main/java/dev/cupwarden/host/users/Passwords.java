package dev.cupwarden.host.users;

import com.password4j.Argon2Function;
import com.password4j.SecureString;
import com.password4j.types.Argon2;
import dev.cupwarden.host.HostException;

/**
 * Hashes words by Argon2id (RFC 9106), so that nobody who reads the store can use them. One at a
 * time: each takes its 19 MiB meanwhile, and many at once would exhaust a small host.
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

  private static final Argon2Function ARGON2ID =
      Argon2Function.getInstance(MEMORY_KIB, PASSES, LANES, HASH_BYTES, Argon2.ID);

  private Passwords() {}

  /**
   * A hash with its parameters and a salt of its own.
   *
   * @throws HostException if the word is too short or too long
   */
  public static synchronized String hash(char[] word) {
    if (word.length < SHORTEST || word.length > LONGEST) {
      throw new HostException(
          "A password has "
              + SHORTEST
              + " to "
              + LONGEST
              + " characters; this has "
              + word.length
              + ".");
    }
    return ARGON2ID.hash(new SecureString(word)).getResult();
  }

  /** True if the word is the one that was hashed, with whatever parameters. */
  public static synchronized boolean matches(char[] word, String hash) {
    // From the hash itself: it may be older than the parameters above.
    return word.length <= LONGEST
        && Argon2Function.getInstanceFromHash(hash).check(new SecureString(word), hash);
  }
}
