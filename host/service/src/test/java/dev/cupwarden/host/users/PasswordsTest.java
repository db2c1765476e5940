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
