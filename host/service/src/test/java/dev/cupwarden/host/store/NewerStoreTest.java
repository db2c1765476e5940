package dev.cupwarden.host.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PostgresqlServer;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A program that was put back over a store that a later one has written. */
class NewerStoreTest {
  @TempDir Path folder;

  /** As a later program leaves it: one migration more than this one knows. */
  private static void takenOnByALaterProgram(Database database, String yes) {
    try (Store store = Store.open(database)) {
      store.write(
          handle ->
              handle.execute(
                  "INSERT INTO flyway_schema_history (installed_rank, version, description, type,"
                      + " script, checksum, installed_by, installed_on, execution_time, success)"
                      + " VALUES (99, '99', 'later', 'SQL', 'V99__later.sql', 1, 'test',"
                      + " CURRENT_TIMESTAMP, 1, "
                      + yes
                      + ")"));
    }
  }

  private static void assertRefused(Database database) {
    HostException refused = assertThrows(HostException.class, () -> Store.open(database));
    String sentence = refused.getMessage();
    assertTrue(sentence.contains("written by a newer program (its version 99"), sentence);
    assertTrue(sentence.contains("Nothing was changed."), sentence);
    assertEquals(1, sentence.lines().count());
  }

  @Test
  void aNewerSqliteStoreIsRefused() {
    Database database = Database.sqlite(folder.resolve("host.db"));
    takenOnByALaterProgram(database, "1");
    assertRefused(database);
  }

  @Test
  void aNewerPostgresqlStoreIsRefused() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start()) {
      takenOnByALaterProgram(server.database(), "true");
      assertRefused(server.database());
    }
  }
}
