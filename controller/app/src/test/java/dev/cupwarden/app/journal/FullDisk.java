package dev.cupwarden.app.journal;

/** A disk without room for one more page of a journal. */
public final class FullDisk {
  private static final int PLENTY = 1_000_000;

  private FullDisk() {}

  /** From now on the journal may not grow, or may again. */
  public static void at(Journal journal, boolean full) throws JournalException {
    journal.limitPages(full ? 1 : PLENTY);
  }
}
