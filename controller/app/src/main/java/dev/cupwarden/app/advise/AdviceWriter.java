package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import java.util.List;

/** How an answer is written. */
interface AdviceWriter {
  /**
   * With its line ends.
   *
   * @param notes what the person wrote beside the readings
   */
  String answer(Advice advice, List<String> notes);

  /** A line that was not understood: what is wrong with it, and which it is. */
  String error(long line, String sentence);
}
