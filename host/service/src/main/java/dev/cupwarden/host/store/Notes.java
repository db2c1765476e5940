package dev.cupwarden.host.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Jdbi;

/** What people wrote and photographed of cups: bounded, and needed by nothing. */
public final class Notes {
  /** Of one cup: one a day over a winter, and some more. Our choice. */
  public static final int MOST_OF_A_CUP = 200;

  /** Photos of a whole bench: twelve cups, each week of a winter, twice. Our choice. */
  public static final int MOST_PHOTOS = 600;

  private final Jdbi jdbi;

  Notes(Jdbi jdbi) {
    this.jdbi = jdbi;
  }

  /**
   * A note.
   *
   * @param at when it was stored, by the host's clock
   * @param day seen, as YYYY-MM-DD
   * @param stage of the roots as it was seen
   * @param words may be empty beside a photo
   * @param hasPhoto whether a photo belongs to it
   */
  public record NoteRow(
      String bench,
      String cup,
      String id,
      Instant at,
      String day,
      String stage,
      String by,
      String words,
      boolean hasPhoto) {}

  /**
   * Stores it, unless there are as many as there may be.
   *
   * @param photo JPEG in base64; none where there is none
   * @return why not, in a sentence
   */
  public Optional<String> add(NoteRow note, Optional<String> photo) {
    return jdbi.inTransaction(
        handle -> {
          int ofCup =
              handle
                  .createQuery("SELECT COUNT(*) FROM notes WHERE bench = ? AND cup = ?")
                  .bind(0, note.bench())
                  .bind(1, note.cup())
                  .mapTo(Integer.class)
                  .one();
          int photos =
              handle
                  .createQuery("SELECT COUNT(*) FROM notes WHERE bench = ? AND photo IS NOT NULL")
                  .bind(0, note.bench())
                  .mapTo(Integer.class)
                  .one();
          if (ofCup >= MOST_OF_A_CUP) {
            return Optional.of("A cup has at most " + MOST_OF_A_CUP + " notes: delete one first.");
          }
          if (photo.isPresent() && photos >= MOST_PHOTOS) {
            return Optional.of("A bench has at most " + MOST_PHOTOS + " photos: delete one first.");
          }
          handle.execute(
              "INSERT INTO notes (bench, cup, id, at_ms, day, stage, writer, words, photo)"
                  + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
              note.bench(),
              note.cup(),
              note.id(),
              note.at().toEpochMilli(),
              note.day(),
              note.stage(),
              note.by(),
              note.words(),
              photo.orElse(null));
          return Optional.empty();
        });
  }

  /** Of a cup, or of all cups where none is named, by the day seen. */
  public List<NoteRow> find(String bench, Optional<String> cup) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT bench, cup, id, at_ms, day, stage, writer, words, photo IS NOT NULL"
                        + " FROM notes WHERE bench = :bench"
                        + (cup.isPresent() ? " AND cup = :cup" : "")
                        + " ORDER BY day, at_ms, id")
                .bind("bench", bench)
                .bindMap(cup.map(name -> java.util.Map.of("cup", name)).orElse(java.util.Map.of()))
                .map((rows, context) -> noteOf(rows))
                .list());
  }

  private static NoteRow noteOf(ResultSet rows) throws SQLException {
    return new NoteRow(
        rows.getString(1),
        rows.getString(2),
        rows.getString(3),
        Instant.ofEpochMilli(rows.getLong(4)),
        rows.getString(5),
        rows.getString(6),
        rows.getString(7),
        rows.getString(8),
        rows.getBoolean(9));
  }

  /** JPEG in base64, if that note has a photo. */
  public Optional<String> photo(String bench, String cup, String id) {
    return jdbi.withHandle(
        handle ->
            handle
                .createQuery(
                    "SELECT photo FROM notes WHERE bench = ? AND cup = ? AND id = ?"
                        + " AND photo IS NOT NULL")
                .bind(0, bench)
                .bind(1, cup)
                .bind(2, id)
                .mapTo(String.class)
                .findOne());
  }

  /** Whether it was there. */
  public boolean delete(String bench, String cup, String id) {
    return jdbi.withHandle(
        handle ->
            handle.execute(
                    "DELETE FROM notes WHERE bench = ? AND cup = ? AND id = ?", bench, cup, id)
                == 1);
  }
}
