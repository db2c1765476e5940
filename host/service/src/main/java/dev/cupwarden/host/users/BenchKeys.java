package dev.cupwarden.host.users;

import dev.cupwarden.host.store.Store;
import java.security.SecureRandom;
import java.util.Base64;

/** The keys with which controllers come to the broker inside the host. */
public final class BenchKeys {
  private static final int KEY_BYTES = 24;
  private final Store store;

  public BenchKeys(Store store) {
    this.store = store;
  }

  /** A new key for a bench, shown once and stored only as a hash; an older one ends. */
  public String make(String bench) {
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
