package dev.cupwarden.app.journal;

import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** A journal that cannot be read or written; the message is one sentence for the grower. */
public final class JournalException extends Exception {
  private static final long serialVersionUID = 1L;

  /** What is wrong with the file. */
  public enum Trouble {
    /** No room on the disk. */
    FULL,
    /** The file's content is damaged. */
    CORRUPT,
    /** Made by a newer program, or by another one. */
    FOREIGN,
    /** Another process works with it. */
    IN_USE,
    /** Anything else: rights, a bus error, a lock that does not end. */
    UNUSABLE
  }

  private final Trouble trouble;

  JournalException(Trouble trouble, String sentence, Throwable cause) {
    super(sentence, cause);
    this.trouble = trouble;
  }

  /** The sentence for what SQLite said while {@code doing} something to the journal. */
  static JournalException of(String doing, SQLException e) {
    Trouble trouble = troubleOf(e);
    String what =
        switch (trouble) {
          case FULL -> "the disk is full";
          case CORRUPT -> "the file is damaged";
          case FOREIGN, IN_USE, UNUSABLE -> e.getMessage();
        };
    return new JournalException(trouble, "journal: " + doing + " failed: " + what, e);
  }

  /** The last tick is not marked beside the journal. */
  public static JournalException unmarked(String why) {
    return new JournalException(Trouble.UNUSABLE, why, null);
  }

  /** The state in the journal is not one that this program understands. */
  public static JournalException unreadableState(Exception cause) {
    return new JournalException(
        Trouble.CORRUPT,
        "journal: the bench's state in it cannot be understood: " + cause.getMessage(),
        cause);
  }

  private static Trouble troubleOf(SQLException e) {
    if (!(e instanceof SQLiteException sqlite)) {
      return Trouble.UNUSABLE;
    }
    SQLiteErrorCode code = sqlite.getResultCode();
    // The low byte is the primary code; the extended ones say in which call it happened.
    int primary = code.code & 0xFF;
    if (primary == SQLiteErrorCode.SQLITE_FULL.code || code == SQLiteErrorCode.SQLITE_IOERR_WRITE) {
      return Trouble.FULL;
    }
    if (primary == SQLiteErrorCode.SQLITE_CORRUPT.code
        || primary == SQLiteErrorCode.SQLITE_NOTADB.code) {
      return Trouble.CORRUPT;
    }
    return Trouble.UNUSABLE;
  }

  /** What is wrong. */
  public Trouble trouble() {
    return trouble;
  }

  /** What was asked of it is not in it. */
  static JournalException unanswerable(String how) {
    return new JournalException(Trouble.UNUSABLE, "journal: it " + how, null);
  }
}
