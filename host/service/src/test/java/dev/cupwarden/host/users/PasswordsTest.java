package dev.cupwarden.host.users;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;

class PasswordsTest {
  @Test
  void aHashIsArgon2idWithASaltOfItsOwnAndKnowsItsWord() {
    char[] word = "twelve or more".toCharArray();
    String hash = Passwords.hash(word);
    assertTrue(hash.startsWith("$argon2id$v=19$m=19456,t=2,p=1$"), hash);
    assertNotEquals(hash, Passwords.hash(word));
    assertTrue(Passwords.matches(word, hash));
    assertFalse(Passwords.matches("twelve or less".toCharArray(), hash));
  }

  /**
   * Made by Argon2's reference implementation, as Debian packages it (argon2 0~20171227): {@code
   * echo -n password | argon2 somesalt -id -t 2 -m 16 -p 1 -e}.
   */
  @Test
  void aHashOfTheReferenceImplementationIsKnown() {
    String hash =
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
    assertTrue(Passwords.matches("password".toCharArray(), hash));
    assertFalse(Passwords.matches("passwore".toCharArray(), hash));
  }

  @Test
  void whatIsNoHashOrWouldExhaustTheHostMatchesNothing() {
    char[] word = "twelve or more".toCharArray();
    for (String hash :
        new String[] {
          "",
          "$argon2id$",
          Passwords.hash(word).replace("argon2id", "argon2i"),
          Passwords.hash(word).replace("m=19456", "m=999999999"),
          Passwords.hash(word).replace("t=2", "t=9999")
        }) {
      assertFalse(Passwords.matches(word, hash), hash);
    }
  }

  @Test
  void aShortPasswordIsRefused() {
    assertThrows(HostException.class, () -> Passwords.hash("short".toCharArray()));
    assertThrows(HostException.class, () -> Passwords.hash(new char[300]));
  }

  @Test
  void fiveFailuresAreFreeAndThenTheWaitDoublesUpToAQuarterOfAnHour() {
    AtomicReference<Instant> now = new AtomicReference<>(Instant.EPOCH);
    Attempts attempts = new Attempts(now::get);
    for (int failure = 0; failure < 5; failure++) {
      assertEquals(Optional.empty(), attempts.waitFor("somebody", "here"));
      attempts.failed("somebody", "here");
    }
    assertEquals(Optional.of(Duration.ofSeconds(5)), attempts.waitFor("somebody", "there"));
    assertEquals(Optional.of(Duration.ofSeconds(5)), attempts.waitFor("another", "here"));
    assertEquals(Optional.empty(), attempts.waitFor("another", "there"));
    for (int failure = 0; failure < 20; failure++) {
      attempts.failed("somebody", "here");
    }
    assertEquals(Optional.of(Duration.ofMinutes(15)), attempts.waitFor("somebody", "here"));
    now.set(Instant.EPOCH.plus(Duration.ofMinutes(15)));
    assertEquals(Optional.empty(), attempts.waitFor("somebody", "here"));
    attempts.succeeded("somebody", "here");
    attempts.failed("somebody", "here");
    assertEquals(Optional.empty(), attempts.waitFor("somebody", "here"));
  }
}
