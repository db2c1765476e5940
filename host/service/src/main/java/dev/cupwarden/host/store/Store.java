package dev.cupwarden.host.store;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PrivateFiles;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.Map;
import java.util.function.Consumer;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.MigrationInfo;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** The open database, brought to the newest schema, with one accessor for each kind of thing. */
public final class Store implements AutoCloseable {
  private static final String MIGRATIONS = "classpath:dev/cupwarden/host/store";
  private static final int CONNECTIONS = 6;
  private static final long CONNECT_LIMIT_MS = 15_000;

  private final HikariDataSource pool;
  private final Jdbi jdbi;
  private final Readings readings;
  private final Benches benches;
  private final Events events;
  private final Setups setups;
  private final Orders orders;
  private final RejectedMessages rejectedMessages;
  private final Rollups rollups;
  private final Notices notices;
  private final Users users;
  private final Alerts alerts;
  private final Notes notes;

  private Store(HikariDataSource pool) {
    this.pool = pool;
    jdbi = Jdbi.create(pool);
    readings = new Readings(jdbi);
    benches = new Benches(jdbi);
    events = new Events(jdbi);
    setups = new Setups(jdbi);
    orders = new Orders(jdbi);
    rejectedMessages = new RejectedMessages(jdbi);
    rollups = new Rollups(jdbi);
    notices = new Notices(jdbi);
    users = new Users(jdbi);
    alerts = new Alerts(jdbi);
    notes = new Notes(jdbi);
  }

  /**
   * The store in one SQLite file, made if it is not there, or on a PostgreSQL server.
   *
   * @throws HostException if it cannot be opened or its schema is not ours
   */
  public static Store open(Database database) {
    return database.file().map(Store::sqlite).orElseGet(() -> postgresql(database));
  }

  private static Store postgresql(Database database) {
    HikariConfig config = new HikariConfig();
    config.setJdbcUrl(database.jdbcUrl());
    database.user().ifPresent(config::setUsername);
    database.password().ifPresent(config::setPassword);
    config.addDataSourceProperty("reWriteBatchedInserts", "true");
    config.addDataSourceProperty("ApplicationName", "cupwarden");
    config.setConnectionTimeout(CONNECT_LIMIT_MS);
    return open(config, "", database.toString());
  }

  private static Store sqlite(Path file) {
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      PrivateFiles.file(fileItself(file));
      for (String beside : new String[] {"-wal", "-shm"}) {
        PrivateFiles.fileIfThere(Path.of(fileItself(file) + beside));
      }
    } catch (IOException refused) {
      throw new HostException("The folder for " + file + " cannot be made or written.", refused);
    }
    HikariConfig config = new HikariConfig();
    config.setJdbcUrl("jdbc:sqlite:" + file.toAbsolutePath());
    // FULL survives a power cut; batches make it fast. IMMEDIATE lets a writer wait its turn.
    config.addDataSourceProperty("journal_mode", "WAL");
    config.addDataSourceProperty("synchronous", "FULL");
    config.addDataSourceProperty("busy_timeout", "15000");
    config.addDataSourceProperty("transaction_mode", "IMMEDIATE");
    config.addDataSourceProperty("foreign_keys", "true");
    return open(config, "WITHOUT ROWID", file.toString());
  }

  /** Without the settings that SQLite's driver takes from an address, after a question mark. */
  private static Path fileItself(Path file) {
    return Path.of(file.toString().replaceFirst("\\?.*", ""));
  }

  private static Store open(HikariConfig config, String clustered, String shown) {
    config.setMaximumPoolSize(CONNECTIONS);
    config.setPoolName("store");
    HikariDataSource pool = null;
    try {
      pool = new HikariDataSource(config);
      Flyway schema =
          Flyway.configure()
              .dataSource(pool)
              .locations(MIGRATIONS)
              .placeholders(Map.of("clustered", clustered))
              .load();
      refuseNewer(schema, shown);
      schema.migrate();
      return new Store(pool);
    } catch (HostException newer) {
      pool.close();
      throw newer;
    } catch (FlywayException | com.zaxxer.hikari.pool.HikariPool.PoolInitializationException no) {
      if (pool != null) {
        pool.close();
      }
      throw cannotBeOpened(shown, no);
    }
  }

  static HostException cannotBeOpened(String shown, Throwable why) {
    return new HostException(
        "The store " + shown + " cannot be opened: " + firstLine(rootOf(why)) + ".", why);
  }

  /** An older program would write rows that the newer one no longer understands, or lose some. */
  private static void refuseNewer(Flyway schema, String shown) {
    MigrationInfo[] all = schema.info().all();
    for (MigrationInfo each : all) {
      if (each.getState().isApplied() && !each.getState().isResolved()) {
        throw new HostException(
            "The store "
                + shown
                + " was written by a newer program (its version "
                + each.getVersion()
                + ", this one knows "
                + known(all)
                + "): start that one, or put back a backup from before the upgrade. Nothing was"
                + " changed.");
      }
    }
  }

  private static String known(MigrationInfo[] all) {
    return Arrays.stream(all)
        .filter(each -> each.getState().isResolved())
        .map(each -> String.valueOf(each.getVersion()))
        .reduce("none", (before, next) -> next);
  }

  private static Throwable rootOf(Throwable thrown) {
    Throwable root = thrown;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return root;
  }

  private static String firstLine(Throwable thrown) {
    return String.valueOf(thrown.getMessage()).lines().findFirst().orElse("no reason given");
  }

  /** Runs writes in one transaction: all of them happen, or none. */
  public void write(Consumer<Handle> writes) {
    jdbi.useTransaction(writes::accept);
  }

  public Readings readings() {
    return readings;
  }

  public Benches benches() {
    return benches;
  }

  public Setups setups() {
    return setups;
  }

  public Events events() {
    return events;
  }

  public Notes notes() {
    return notes;
  }

  public Orders orders() {
    return orders;
  }

  public RejectedMessages rejectedMessages() {
    return rejectedMessages;
  }

  public Rollups rollups() {
    return rollups;
  }

  public Notices notices() {
    return notices;
  }

  public Users users() {
    return users;
  }

  public Alerts alerts() {
    return alerts;
  }

  /**
   * Writes that this host was here, which proves that the store takes what it is given.
   *
   * @param host the host's own name
   * @throws org.jdbi.v3.core.JdbiException if it does not
   */
  public void mark(String host, Instant now) {
    write(
        handle ->
            handle.execute(
                "INSERT INTO marks (host, at_ms) VALUES (?, ?)"
                    + " ON CONFLICT (host) DO UPDATE SET at_ms = excluded.at_ms",
                host,
                now.toEpochMilli()));
  }

  Jdbi jdbi() {
    return jdbi;
  }

  @Override
  public void close() {
    pool.close();
  }
}
