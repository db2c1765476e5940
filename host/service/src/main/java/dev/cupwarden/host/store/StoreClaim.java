package dev.cupwarden.host.store;

import dev.cupwarden.host.HostException;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Optional;
import java.util.Properties;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A host's claim on a PostgreSQL store: alone, or as one of several that share it. Two hosts that
 * do not share would each tell people of every alert, and each wait for messages that the other
 * took. An advisory lock of a session of its own: it ends with the host, however that ends.
 */
public final class StoreClaim implements AutoCloseable {
  /** Any number that other programs at the database do not use. */
  private static final long LOCK = 0x6375_7077_6172_64L;

  private static final int CHECK_S = 5;
  private static final Logger LOG = LoggerFactory.getLogger(StoreClaim.class);

  private final Database database;
  private final String lock;
  private Optional<Connection> session;

  private StoreClaim(Database database, boolean shared) {
    this.database = database;
    this.lock = "SELECT pg_try_advisory_lock%s(%d)".formatted(shared ? "_shared" : "", LOCK);
    this.session = Optional.empty();
  }

  /**
   * Takes it.
   *
   * @param shared whether other hosts may share the store
   * @throws HostException if another host has it and not both share, or the database is away
   */
  public static StoreClaim of(Database database, boolean shared) {
    StoreClaim claim = new StoreClaim(database, shared);
    try {
      if (!claim.take()) {
        throw new HostException(
            "Another host keeps its record in "
                + database
                + ": end that one first, or start both with --shared.");
      }
      return claim;
    } catch (SQLException away) {
      throw Store.cannotBeOpened(database.toString(), away);
    }
  }

  private boolean take() throws SQLException {
    Properties who = new Properties();
    database.user().ifPresent(user -> who.setProperty("user", user));
    database.password().ifPresent(password -> who.setProperty("password", password));
    who.setProperty("ApplicationName", "cupwarden-claim");
    who.setProperty("tcpKeepAlive", "true");
    Connection opened = DriverManager.getConnection(database.jdbcUrl(), who);
    boolean taken;
    try (Statement statement = opened.createStatement();
        ResultSet answer = statement.executeQuery(lock)) {
      taken = answer.next() && answer.getBoolean(1);
    }
    if (taken) {
      session = Optional.of(opened);
    } else {
      opened.close();
    }
    return taken;
  }

  /** Takes it again where the database was away in between. */
  public synchronized void renew() {
    try {
      if (session.isPresent() && session.get().isValid(CHECK_S)) {
        return;
      }
      close();
      if (!take()) {
        LOG.warn(
            "Another host has begun to keep its record in {} too: end one of the two, or start both"
                + " with --shared.",
            database);
      }
    } catch (SQLException away) {
      LOG.debug("the claim on the store waits for the database", away);
    }
  }

  @Override
  public synchronized void close() throws SQLException {
    if (session.isPresent()) {
      session.get().close();
      session = Optional.empty();
    }
  }
}
