package dev.cupwarden.host.users;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a person may do. */
public enum Role {
  /** See everything, change nothing. */
  LOOK,
  /** Give orders and acknowledge alerts as well. */
  ACT;

  /** As it is written. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Optional<Role> of(String word) {
    return Arrays.stream(values()).filter(role -> role.word().equals(word)).findFirst();
  }
}
