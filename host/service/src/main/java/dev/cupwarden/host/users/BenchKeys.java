package dev.cupwarden.host.users;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.Store;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Pattern;

/** The keys with which controllers come to the broker inside the host. */
public final class BenchKeys {
  private static final int KEY_BYTES = 24;
  private static final Pattern NAME = Pattern.compile("[^/+#\\p{Cntrl}]{1,64}");
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
    if (!NAME.matcher(bench).matches()) {
      throw new HostException(
          "BENCH: expected a name of 1 to 64 characters without /, + and #, as in the bench's file.");
    }
    byte[] bytes = new byte[KEY_BYTES];
    new SecureRandom().nextBytes(bytes);
    String key = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    store.users().putKey(bench, Passwords.hash(key.toCharArray()));
    return key;
  }

  public boolean matches(String bench, char[] key) {
    return store.users().key(bench).filter(hash -> Passwords.matches(key, hash)).isPresent();
  }

  /** Once a bench has a key, nobody comes in without one. */
  public boolean any() {
    return !store.users().benchesWithKey().isEmpty();
  }
}
