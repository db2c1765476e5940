package dev.cupwarden.host.store;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PostgresqlServer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class StoreClaimTest {
  private static PostgresqlServer server;

  @BeforeAll
  static void startServer() throws Exception {
    server = PostgresqlServer.start();
  }

  @AfterAll
  static void stopServer() throws Exception {
    server.close();
  }

  @Test
  void aHostAloneLetsNoOtherIn() throws Exception {
    try (StoreClaim alone = claim(false)) {
      assertRefused(false);
      assertRefused(true);
      alone.renew();
      assertRefused(false);
    }
    claim(false).close();
  }

  @Test
  void hostsThatShareLetOneAnotherIn() throws Exception {
    try (StoreClaim one = claim(true);
        StoreClaim other = claim(true)) {
      assertRefused(false);
      other.close();
      one.renew();
      assertRefused(false);
    }
  }

  @Test
  void aClaimOutlivesTheDatabasesRestart() throws Exception {
    try (StoreClaim alone = claim(false)) {
      server.stop();
      alone.renew();
      server.run();
      alone.renew();
      assertRefused(false);
    }
  }

  private static StoreClaim claim(boolean shared) {
    return StoreClaim.of(server.database(), shared);
  }

  private static void assertRefused(boolean shared) {
    HostException refused = assertThrows(HostException.class, () -> claim(shared).close());
    assertTrue(refused.getMessage().contains("--shared"), refused.getMessage());
  }
}
