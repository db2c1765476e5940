package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TickMarkTest {
  private final Locale before = Locale.getDefault();
  @TempDir Path folder;

  @AfterEach
  void theMachinesOwn() {
    Locale.setDefault(before);
  }

  /** A board set up where other digits are written would lose each of its marks. */
  @Test
  void aMarkIsReadAgainWhereOtherDigitsAreWritten() throws Exception {
    Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
    TickMark mark = new TickMark(folder.resolve("journal.db"));
    mark.write(1207);
    assertEquals(OptionalLong.of(1207), mark.read());
  }
}
