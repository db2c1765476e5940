package dev.cupwarden.host.users;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import dev.cupwarden.host.users.Attempts.Who;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AttemptsTest {
  private static final Optional<Duration> AT_ONCE = Optional.empty();
  private final AtomicReference<Instant> now = new AtomicReference<>(Instant.EPOCH);
  private final Attempts attempts = new Attempts(now::get);

  private static Who stranger(String name, String place) {
    return new Who(name, place, false);
  }

  private void fail(Who who, int times) {
    for (int time = 0; time < times; time++) {
      assertEquals(AT_ONCE, attempts.begin(who));
    }
  }

  @Test
  void fiveTriesAreFreeAndThenTheWaitDoublesUpToAQuarterOfAnHour() {
    fail(stranger("somebody", "here"), 5);
    Duration wait = Duration.ofSeconds(5);
    for (int more = 0; more < 12; more++) {
      assertEquals(Optional.of(wait), attempts.begin(stranger("somebody", "here")));
      assertEquals(Optional.of(wait), attempts.begin(stranger("somebody", "there")));
      assertEquals(Optional.of(wait), attempts.begin(stranger("another", "here")));
      Instant due = now.get().plus(wait);
      now.set(due);
      fail(stranger("somebody", "here"), 1);
      wait = wait.multipliedBy(2);
      wait = wait.compareTo(Duration.ofMinutes(15)) > 0 ? Duration.ofMinutes(15) : wait;
    }
    assertEquals(Duration.ofMinutes(15), wait);
    assertEquals(AT_ONCE, attempts.begin(stranger("another", "there")));
    attempts.succeeded(stranger("somebody", "here"));
    assertEquals(AT_ONCE, attempts.begin(stranger("somebody", "here")));
  }

  @Test
  void guessingElsewhereLocksNobodyOutAtHome() {
    fail(stranger("owner", "far away"), 5);
    assertNotEquals(AT_ONCE, attempts.begin(stranger("owner", "another place")));
    Who owner = new Who("owner", "home", true);
    fail(owner, 5);
    now.updateAndGet(before -> before.plusSeconds(3600));
    fail(owner, 1);
    for (int minute = 0; minute < 20; minute++) {
      now.updateAndGet(before -> before.plusSeconds(60));
      assertEquals(AT_ONCE, attempts.begin(owner), "a minute is the most, minute " + minute);
    }
  }

  @Test
  void whatWasNotLookedAtDoesNotCount() {
    for (int time = 0; time < 50; time++) {
      assertEquals(AT_ONCE, attempts.begin(stranger("somebody", "here")));
      attempts.takenBack(stranger("somebody", "here"));
    }
    fail(stranger("somebody", "here"), 5);
    assertNotEquals(AT_ONCE, attempts.begin(stranger("somebody", "here")));
  }

  /** 2001:db8::/32 and 192.0.2.0/24 are for documents (RFC 3849, RFC 5737). */
  @ParameterizedTest
  @CsvSource({
    "192.0.2.7, 192.0.2.7",
    "2001:db8:1:2:3:4:5:6, 2001:db8:1:2:0:0:0:0/64",
    "2001:db8:1:2::9, 2001:db8:1:2:0:0:0:0/64",
    "[2001:db8:1:2::9], 2001:db8:1:2:0:0:0:0/64",
    "2001:db8:1:3::9, 2001:db8:1:3:0:0:0:0/64",
    "fe80::1%eth0, fe80:0:0:0:0:0:0:0/64",
    "::ffff:192.0.2.7, 192.0.2.7",
    "0:0:0:0:0:0:0:1, 0:0:0:0:0:0:0:0/64",
    "nonsense, nonsense",
    "no:address, no:address"
  })
  void aPlaceIsAnAddressOrTheNetworkOfOneCustomer(String address, String place) {
    assertEquals(place, ClientNetwork.of(address));
  }
}
