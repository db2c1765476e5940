package dev.cupwarden.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.store.StoreMaintenance;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.InstantSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The folder of a host: of one host, and of one user. */
class OwnFolderTest {
  @TempDir Path folder;

  private static String rights(Path path) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
  }

  private static void open(Path path, String rights) throws IOException {
    Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(rights));
  }

  private HostSettings settings(Path data) {
    return HostSettings.local(
        data,
        LoopbackPort.anyFree("the page", "--port"),
        LoopbackPort.anyFree("the broker", "--broker-port"));
  }

  @Test
  void aSecondHostOnTheFolderIsRefusedInASentenceUntilTheFirstHasEnded() throws Exception {
    Path data = folder.resolve("data");
    try (Host first = Host.start(settings(data))) {
      HostException refused =
          assertThrows(HostException.class, () -> Host.start(settings(data)).close());
      assertTrue(
          refused.getMessage().contains("Another host is running on the folder " + data),
          refused.getMessage());
      assertTrue(first.address().startsWith("http"));
    }
    Host.start(settings(data)).close();
  }

  @Test
  void twoHostsOfDifferentFoldersDoNotShareOneSqliteStore() throws Exception {
    Database store = Database.sqlite(folder.resolve("store/host.db"));
    HostSettings one = with(settings(folder.resolve("one")), store);
    try (Host first = Host.start(one)) {
      HostException refused =
          assertThrows(
              HostException.class,
              () -> Host.start(with(settings(folder.resolve("two")), store)).close());
      assertTrue(refused.getMessage().contains(folder.resolve("store").toString()));
      assertTrue(first.address().startsWith("http"));
    }
  }

  private static HostSettings with(HostSettings settings, Database database) {
    return settings.keeping(new HostSettings.Keeping(database, Retention.USUAL));
  }

  @Test
  void whatTheHostMakesIsReadByItsUserAlone() throws Exception {
    Path data = folder.resolve("data");
    Host.start(settings(data)).close();
    assertEquals("rwx------", rights(data));
    for (String file : new String[] {"host.db", "host-name", "host.lock"}) {
      assertEquals("rw-------", rights(data.resolve(file)), file);
    }
    Database database = Database.sqlite(data.resolve("host.db"));
    Path copy = folder.resolve("copy.db");
    try (Store store = Store.open(database)) {
      assertEquals("rw-------", rights(data.resolve("host.db-wal")));
      new StoreMaintenance(store, InstantSource.system(), Retention.USUAL).backup(database, copy);
    }
    assertEquals("rw-------", rights(copy));
  }

  @Test
  void whatAnOlderHostLeftOpenIsTightened() throws Exception {
    Path data = Files.createDirectory(folder.resolve("data"));
    Store.open(Database.sqlite(data.resolve("host.db"))).close();
    Files.writeString(data.resolve("host-name"), HostName.of(folder.resolve("other")) + "\n");
    open(data, "rwxr-xr-x");
    open(data.resolve("host.db"), "rw-r--r--");
    open(data.resolve("host-name"), "rw-r--r--");
    Host.start(settings(data)).close();
    assertEquals("rwx------", rights(data));
    assertEquals("rw-------", rights(data.resolve("host.db")));
    assertEquals("rw-------", rights(data.resolve("host-name")));
  }

  @Test
  void aNameCutOffAsItWasMadeIsMadeAnew() throws Exception {
    Path data = Files.createDirectory(folder.resolve("data"));
    Files.createFile(data.resolve("host-name"));
    String name = HostName.of(data);
    assertEquals(name, HostName.of(data), "and kept from then on");
  }

  /** Such as a home, or a folder of temporary files. */
  @Test
  void aFolderThatHoldsMoreThanAHostKeepsItsRights() throws Exception {
    Path data = Files.createDirectory(folder.resolve("home"));
    Files.writeString(data.resolve("letter"), "not the host's");
    open(data, "rwxr-xr-x");
    Host.start(settings(data)).close();
    assertEquals("rwxr-xr-x", rights(data));
    assertEquals("rw-------", rights(data.resolve("host.db")));
  }

  @Test
  void aSecretThatEverybodyMayReadIsTakenFromThemAndFromNobodyElse() throws Exception {
    Path secret = Files.writeString(folder.resolve("secret"), "a shared secret\n");
    open(secret, "rw-r--r--");
    assertEquals("a shared secret\n", PrivateFiles.secretIn(secret));
    assertEquals("rw-r-----", rights(secret), "a group may be the service's own");
  }
}
