package dev.cupwarden.host.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Jdbi;

/**
 * People and benches that may come in, by the hashes of their passwords and keys, which are never
 * stored.
 */
public final class Users {
  /** A phone on the move has many; an old one is no longer that person's. */
  private static final int MOST_PLACES = 50;

  private final Jdbi jdbi;

  Users(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * A person.
   *
   * @param role {@code look} or {@code act}
   */
  public record UserRow(String name, String role, String hash) {
    /** Without the hash. */
    @Override
    public String toString() {
      return name + " (" + role + ")";
    }
  }

  /**
   * Adds a person, or gives one a new role and password, which ends all of that person's sessions
   * and forgets from where they came.
   */
  public void put(UserRow user) {
    jdbi.useTransaction(
        handle -> {
          handle.execute("DELETE FROM sessions WHERE name = ?", user.name());
          handle.execute("DELETE FROM known_places WHERE name = ?", user.name());
          handle.execute(
              "INSERT INTO users (name, role, hash) VALUES (?, ?, ?)"
                  + " ON CONFLICT (name) DO UPDATE SET role = excluded.role, hash = excluded.hash",
              user.name(),
              user.role(),
              user.hash());
        });
  }

  /** False if there was none. */
  public boolean remove(String name) {
    return jdbi.inTransaction(
        handle -> {
          handle.execute("DELETE FROM sessions WHERE name = ?", name);
          handle.execute("DELETE FROM known_places WHERE name = ?", name);
          return handle.execute("DELETE FROM users WHERE name = ?", name) == 1;
        });
  }

  public Optional<UserRow> find(String name) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT name, role, hash FROM users WHERE name = ?")
                .bind(0, name)
                .map(
                    (rows, context) ->
                        new UserRow(rows.getString(1), rows.getString(2), rows.getString(3)))
                .findOne());
  }

  public List<UserRow> all() {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT name, role, hash FROM users ORDER BY name")
                .map(
                    (rows, context) ->
                        new UserRow(rows.getString(1), rows.getString(2), rows.getString(3)))
                .list());
  }

  /**
   * A session begins.
   *
   * @param digest of its token
   */
  public void open(String digest, String name, Instant now, Instant ends) {
    jdbi.useTransaction(
        handle -> {
          handle.execute("DELETE FROM sessions WHERE ends_ms < ?", now.toEpochMilli());
          handle.execute(
              "INSERT INTO sessions (digest, name, ends_ms) VALUES (?, ?, ?)",
              digest,
              name,
              ends.toEpochMilli());
        });
  }

  public void end(String digest) {
    jdbi.useHandle(handle -> handle.execute("DELETE FROM sessions WHERE digest = ?", digest));
  }

  /** Whose session it is, if it has not ended. */
  public Optional<UserRow> inSession(String digest, Instant now) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT u.name, u.role, u.hash FROM sessions s JOIN users u ON u.name = s.name"
                        + " WHERE s.digest = ? AND s.ends_ms > ?")
                .bind(0, digest)
                .bind(1, now.toEpochMilli())
                .map(
                    (rows, context) ->
                        new UserRow(rows.getString(1), rows.getString(2), rows.getString(3)))
                .findOne());
  }

  /** Whether that person has signed in from there. */
  public boolean knows(String name, String place) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT 1 FROM known_places WHERE name = ? AND place = ?")
                .bind(0, name)
                .bind(1, place)
                .mapTo(Integer.class)
                .findOne()
                .isPresent());
  }

  /** That person has signed in from there; the places of longest ago are forgotten. */
  public void know(String name, String place, Instant now) {
    jdbi.useTransaction(
        handle -> {
          handle.execute(
              "INSERT INTO known_places (name, place, at_ms) VALUES (?, ?, ?)"
                  + " ON CONFLICT (name, place) DO UPDATE SET at_ms = excluded.at_ms",
              name,
              place,
              now.toEpochMilli());
          handle.execute(
              "DELETE FROM known_places WHERE name = ? AND at_ms < (SELECT MIN(at_ms) FROM"
                  + " (SELECT at_ms FROM known_places WHERE name = ? ORDER BY at_ms DESC LIMIT "
                  + MOST_PLACES
                  + ") newest)",
              name,
              name);
        });
  }

  /** With which key a bench's controller comes from now on. */
  public void putKey(String bench, String hash) {
    jdbi.useHandle(
        handle ->
            handle.execute(
                "INSERT INTO bench_keys (bench, hash) VALUES (?, ?)"
                    + " ON CONFLICT (bench) DO UPDATE SET hash = excluded.hash",
                bench,
                hash));
  }

  public boolean removeKey(String bench) {
    return jdbi.withHandle(
            handle -> handle.execute("DELETE FROM bench_keys WHERE bench = ?", bench))
        == 1;
  }

  public Optional<String> key(String bench) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT hash FROM bench_keys WHERE bench = ?")
                .bind(0, bench)
                .mapTo(String.class)
                .findOne());
  }

  public List<String> benchesWithKey() {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery("SELECT bench FROM bench_keys ORDER BY bench")
                .mapTo(String.class)
                .list());
  }
}
