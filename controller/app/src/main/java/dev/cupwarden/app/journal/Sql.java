package dev.cupwarden.app.journal;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The few JDBC gestures that journal and outbox share: a transaction, an update, a query. */
final class Sql implements AutoCloseable {
  /** Work inside one transaction. */
  interface Work<T> {
    T run() throws SQLException;
  }

  /** A row made into something. */
  interface Row<T> {
    T of(ResultSet row) throws SQLException;
  }

  private final Connection connection;

  Sql(Connection connection) {
    this.connection = connection;
  }

  /** All of it or nothing; {@code doing} names it in the sentence when it fails. */
  <T> T inTransaction(String doing, Work<T> work) throws JournalException {
    return transaction("BEGIN IMMEDIATE", doing, work);
  }

  /** Sees one state of all tables, and holds up nobody who writes. */
  <T> T reading(String doing, Work<T> work) throws JournalException {
    return transaction("BEGIN", doing, work);
  }

  private synchronized <T> T transaction(String begin, String doing, Work<T> work)
      throws JournalException {
    try {
      update(begin);
      try {
        T result = work.run();
        update("COMMIT");
        return result;
      } catch (SQLException | RuntimeException e) {
        rollback(e);
        throw e;
      }
    } catch (SQLException e) {
      throw JournalException.of(doing, e);
    }
  }

  /** One statement that SQLite does not take within a transaction. */
  synchronized void alone(String doing, String statement, Object... values)
      throws JournalException {
    try {
      update(statement, values);
    } catch (SQLException e) {
      throw JournalException.of(doing, e);
    }
  }

  /** Likewise, of one that answers with a number; 0 where it does not answer. */
  synchronized long askedAlone(String doing, String query) throws JournalException {
    try {
      return number(query);
    } catch (SQLException e) {
      throw JournalException.of(doing, e);
    }
  }

  // SQLite has already rolled back by itself after some errors, a full disk among them; rolling
  // back again then fails, and must not hide what happened first.
  private void rollback(Exception because) {
    try {
      update("ROLLBACK");
    } catch (SQLException e) {
      because.addSuppressed(e);
    }
  }

  /** Rows changed. */
  int update(String sql, Object... values) throws SQLException {
    try (PreparedStatement statement = prepared(sql, values)) {
      return statement.executeUpdate();
    }
  }

  <T> List<T> list(String sql, Row<T> make, Object... values) throws SQLException {
    try (PreparedStatement statement = prepared(sql, values);
        ResultSet rows = statement.executeQuery()) {
      List<T> all = new ArrayList<>();
      while (rows.next()) {
        all.add(make.of(rows));
      }
      return all;
    }
  }

  <T> Optional<T> first(String sql, Row<T> make, Object... values) throws SQLException {
    List<T> all = list(sql, make, values);
    return all.isEmpty() ? Optional.empty() : Optional.of(all.get(0));
  }

  /** A single number, 0 when there is no row or it is null. */
  long number(String sql, Object... values) throws SQLException {
    return first(sql, row -> row.getLong(1), values).orElse(0L);
  }

  private PreparedStatement prepared(String sql, Object... values) throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    return statement;
  }

  /** For a result too long to hold in memory; the caller closes both. */
  Connection connection() {
    return connection;
  }

  @Override
  public synchronized void close() throws JournalException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw JournalException.of("closing", e);
    }
  }
}
