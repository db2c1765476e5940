package dev.cupwarden.host.users;

import dev.cupwarden.core.setup.Names;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.Store;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The keys with which controllers come to the broker inside the host. */
public final class BenchKeys {
  private static final int KEY_BYTES = 24;
  private static final Pattern FORM = Pattern.compile("[A-Za-z0-9_-]{32}");
  private static final String DIGEST = "sha256$";
  private static final Logger LOG = LoggerFactory.getLogger(BenchKeys.class);
  private final Store store;

  public BenchKeys(Store store) {
    this.store = store;
  }

  /**
   * A new key for a bench, shown once and stored only as a hash; an older one ends.
   *
   * @throws HostException if the name could stand for topics of another bench
   */
  public String make(String bench) {
    if (!Names.isSafe(bench)) {
      throw new HostException("BENCH: " + Names.RULE + ", as in the bench's file.");
    }
    byte[] bytes = new byte[KEY_BYTES];
    new SecureRandom().nextBytes(bytes);
    String key = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    store.users().putKey(bench, digest(key));
    return key;
  }

  /**
   * Whether the key is that bench's. One that an older host hashed as a password is a digest from
   * its next right use on.
   */
  public boolean matches(String bench, char[] key) {
    String text = new String(key);
    if (!FORM.matcher(text).matches()) {
      return false; // Not of this program's making: no work is spent on it.
    }
    Optional<String> stored = store.users().key(bench);
    if (stored.isEmpty() || stored.get().startsWith(DIGEST)) {
      return MessageDigest.isEqual(bytes(digest(text)), bytes(stored.orElse(DIGEST)));
    }
    boolean right = Passwords.matches(key, stored.get());
    if (right) {
      keepAsDigest(bench, text);
    }
    return right;
  }

  private void keepAsDigest(String bench, String text) {
    try {
      store.users().putKey(bench, digest(text));
    } catch (JdbiException later) {
      LOG.info("The key of bench {} stays as it is stored until its next use", bench, later);
    }
  }

  /** A key has 192 random bits: a plain digest cannot be turned round, and costs no time. */
  private static String digest(String key) {
    try {
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(bytes(key));
      return DIGEST + HexFormat.of().formatHex(hash);
    } catch (NoSuchAlgorithmException impossible) {
      throw new IllegalStateException("every Java has SHA-256", impossible);
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** Once a bench has a key, nobody comes in without one. */
  public boolean any() {
    return !store.users().benchesWithKey().isEmpty();
  }
}
