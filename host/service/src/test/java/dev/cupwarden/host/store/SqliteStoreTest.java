package dev.cupwarden.host.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SqliteStoreTest extends StoreStoriesTest {
  @TempDir Path folder;

  @Override
  Database database() {
    return Database.sqlite(folder.resolve("host.db"));
  }

  @Override
  boolean readsAWholeTable(String sql) {
    List<String> plan =
        store
            .jdbi()
            .withHandle(
                handle ->
                    handle
                        .createQuery("EXPLAIN QUERY PLAN " + sql.replace("?", "1"))
                        .map((rows, context) -> rows.getString("detail"))
                        .list());
    // SCAN of a derived table is of few rows; "unrolled" holds only what waits.
    return plan.stream()
        .anyMatch(
            step ->
                step.startsWith("SCAN")
                    && !step.matches("SCAN (o|unrolled|CONSTANT ROW|series).*"));
  }

  @Test
  void aBackupIsAWholeStoreAndNeverWritesOverAnother() {
    store.users().put(new Users.UserRow("somebody", "act", "hash"));
    StoreMaintenance upkeep = new StoreMaintenance(store, InstantSource.system(), Retention.USUAL);
    Path copy = folder.resolve("copy.db");
    upkeep.backup(database(), copy);
    try (Store copied = Store.open(Database.sqlite(copy))) {
      assertEquals(store.users().all(), copied.users().all());
    }
    HostException refused =
        assertThrows(HostException.class, () -> upkeep.backup(database(), copy));
    assertTrue(refused.getMessage().contains("is there already"));
  }
}
