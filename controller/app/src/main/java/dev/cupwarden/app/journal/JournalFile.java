package dev.cupwarden.app.journal;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.UUID;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConfig.JournalMode;
import org.sqlite.SQLiteConfig.SynchronousMode;

/** The SQLite file: how it is opened, checked, and brought to the schema this program knows. */
final class JournalFile {
  /** "CWJ1" in ASCII, so that another program's database is not taken for a journal. */
  private static final int APPLICATION_ID = 0x43574A31;

  /** One SQL resource per version, {@code schema-1.sql} upwards. */
  static final int SCHEMA_VERSION = 5;

  private static final int BUSY_TIMEOUT_MS = 5_000;

  /**
   * After so many pages the log goes into the file. Most pages of a tick are those of the tick
   * before, so a longer log writes less in all; at 200 cups this is less than one tick in a
   * hundred.
   */
  private static final int WAL_PAGES = 4096;

  private static final int WAL_KEPT_BYTES = 24 << 20;

  private JournalFile() {}

  /**
   * A connection to the journal, made if the file is missing or empty.
   *
   * @throws JournalException if the file is damaged, newer than this program, or not a journal
   */
  static Connection open(Path file) throws JournalException {
    Connection connection = null;
    try {
      Path parent = file.toAbsolutePath().getParent();
      Files.createDirectories(parent);
      PrivateFile.make(file);
      connection = connect(file);
      check(connection, file);
      migrate(connection, file);
      return connection;
    } catch (SQLException e) {
      close(connection, e);
      throw JournalException.of("opening " + file, e);
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE,
          "journal: " + file + " cannot be made: " + e.getMessage(),
          e);
    } catch (JournalException e) {
      close(connection, e);
      throw e;
    }
  }

  /**
   * A connection for reading a journal back; the file is not changed.
   *
   * @throws JournalException if it is damaged, not a journal, or of another schema
   */
  static Connection openToRead(Path file) throws JournalException {
    Connection connection = null;
    try {
      connection = connect(file);
      check(connection, file);
      int version = version(connection);
      if (version < SCHEMA_VERSION) {
        throw new JournalException(
            JournalException.Trouble.UNUSABLE,
            "journal: " + file + " has schema " + version + "; run the controller on it once",
            null);
      }
      return connection;
    } catch (SQLException e) {
      close(connection, e);
      throw JournalException.of("opening " + file, e);
    } catch (JournalException e) {
      close(connection, e);
      throw e;
    }
  }

  /** A further connection to a journal that {@link #open} has found good. */
  static Connection connect(Path file) throws SQLException {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(JournalMode.WAL);
    // FULL: a committed intent must be on the disk before the pump runs.
    config.setSynchronous(SynchronousMode.FULL);
    config.setBusyTimeout(BUSY_TIMEOUT_MS);
    config.setJournalSizeLimit(WAL_KEPT_BYTES);
    config.setPragma(SQLiteConfig.Pragma.WAL_AUTOCHECKPOINT, String.valueOf(WAL_PAGES));
    return config.createConnection("jdbc:sqlite:" + file);
  }

  private static void check(Connection connection, Path file)
      throws SQLException, JournalException {
    String found = text(connection, "PRAGMA quick_check(1)");
    if (!"ok".equals(found)) {
      throw new JournalException(
          JournalException.Trouble.CORRUPT,
          "journal: " + file + " is damaged (" + found + ")",
          null);
    }
    int application = Integer.parseInt(text(connection, "PRAGMA application_id"));
    int version = version(connection);
    boolean empty = "0".equals(text(connection, "SELECT count(*) FROM sqlite_schema"));
    if (!empty && application != APPLICATION_ID) {
      throw new JournalException(
          JournalException.Trouble.FOREIGN,
          "journal: " + file + " is a database of another program; name another file",
          null);
    }
    if (version > SCHEMA_VERSION) {
      throw new JournalException(
          JournalException.Trouble.FOREIGN,
          "journal: "
              + file
              + " was written by a newer program (schema "
              + version
              + ", this one knows up to "
              + SCHEMA_VERSION
              + "); use that program or name another file",
          null);
    }
  }

  private static void migrate(Connection connection, Path file) throws JournalException {
    Sql sql = new Sql(connection);
    sql.inTransaction(
        "bringing " + file + " to schema " + SCHEMA_VERSION,
        () -> {
          // Asked within the transaction: another process may have made the tables just now.
          int version = version(connection);
          for (int next = version + 1; next <= SCHEMA_VERSION; next++) {
            run(connection, resource("schema-" + next + ".sql"));
            if (next == 2) {
              new StateTexts(sql).carryOver();
            }
          }
          if (version == 0) {
            run(connection, "INSERT INTO numbering VALUES (1, '" + UUID.randomUUID() + "', 0, 0)");
            run(connection, "PRAGMA application_id = " + APPLICATION_ID);
          }
          run(connection, "PRAGMA user_version = " + SCHEMA_VERSION);
          return null;
        });
  }

  private static int version(Connection connection) throws SQLException {
    return Integer.parseInt(text(connection, "PRAGMA user_version"));
  }

  private static void run(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.executeUpdate(sql);
    }
  }

  private static String resource(String name) {
    try (InputStream in = JournalFile.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String text(Connection connection, String query) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      return row.next() ? row.getString(1) : "";
    }
  }

  private static void close(Connection connection, Exception because) {
    if (connection == null) {
      return;
    }
    try {
      connection.close();
    } catch (SQLException e) {
      because.addSuppressed(e);
    }
  }
}
