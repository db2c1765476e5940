package dev.cupwarden.app.journal;

import java.nio.file.Path;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The journal, or where that is damaged a stand-in for this run: readings and alerts go on, but
 * what the cups were given is lost from sight, so nothing is watered. The damaged file is left as
 * it is, for a person to look at.
 *
 * @param trouble why it is a stand-in; none when it is the true one
 * @param mayPass whether the trouble is not the file's own: a full disk, a lock, a bus error
 */
public record OpenJournal(
    Journal journal, Optional<String> trouble, boolean mayPass, Optional<StandInFolder> folder)
    implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(OpenJournal.class);

  /**
   * @throws JournalException when the file belongs to a newer or another program, which a person
   *     must sort out before anything runs
   */
  public static OpenJournal orStandIn(Path file) throws JournalException {
    StandInFolder.sweep();
    try {
      Journal journal = Journal.open(file);
      try {
        Optional<String> lost = journal.lost();
        if (lost.isPresent()) {
          journal.close();
          log.error("{}; nothing will be watered in this run", lost.get());
          return standIn(lost.get(), false);
        }
        // A state that cannot be understood is damage, too, and must show before anything runs.
        journal.restored();
        return new OpenJournal(journal, Optional.empty(), false, Optional.empty());
      } catch (JournalException e) {
        journal.close();
        throw e;
      }
    } catch (JournalException e) {
      if (e.trouble() == JournalException.Trouble.FOREIGN) {
        throw e;
      }
      log.error("{}; nothing will be watered in this run", e.getMessage());
      return standIn(e.getMessage(), e.trouble() != JournalException.Trouble.CORRUPT);
    }
  }

  private static OpenJournal standIn(String trouble, boolean mayPass) throws JournalException {
    StandInFolder folder = StandInFolder.make();
    try {
      return new OpenJournal(
          Journal.open(folder.journal()), Optional.of(trouble), mayPass, Optional.of(folder));
    } catch (JournalException | RuntimeException e) {
      folder.close();
      throw e;
    }
  }

  @Override
  public void close() throws JournalException {
    journal.close();
    folder.ifPresent(StandInFolder::close);
  }
}
