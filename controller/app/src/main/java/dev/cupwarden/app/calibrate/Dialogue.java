package dev.cupwarden.app.calibrate;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * Asks a person, or a script's lines on standard input. An empty line takes what is proposed;
 * {@code undo} goes a step back; the end of input ends the calibration with nothing changed.
 */
final class Dialogue {
  private final BufferedReader in;
  private final PrintWriter out;
  private final boolean silent;

  /**
   * @param silent nobody is there: every proposal is taken
   */
  Dialogue(BufferedReader in, PrintWriter out, boolean silent) {
    this.in = in;
    this.out = out;
    this.silent = silent;
  }

  /** The last step is to be taken back. */
  static final class Undo extends Exception {
    private static final long serialVersionUID = 1L;
  }

  /** Says how far it is. */
  void say(String sentence) {
    out.println(sentence);
    out.flush();
  }

  /** Waits until a person says that it is done. */
  void confirm(String wish) throws IOException, Refused, Undo {
    answer(wish + " Then press Enter: ");
  }

  /** A number; the proposal where the answer is empty. */
  double number(String question, OptionalDouble proposal) throws IOException, Refused, Undo {
    if (silent && proposal.isEmpty()) {
      throw new Refused(question + ": no answer was given.");
    }
    String answer =
        answer(
            question
                + (proposal.isPresent()
                    ? String.format(Locale.ROOT, " [%.2f]: ", proposal.getAsDouble())
                    : ": "));
    if (answer.isEmpty() && proposal.isPresent()) {
      return proposal.getAsDouble();
    }
    try {
      double number = Double.parseDouble(answer);
      if (Double.isFinite(number) && number >= 0) {
        return number;
      }
    } catch (NumberFormatException notANumber) {
      throw unreadable(question, answer);
    }
    throw unreadable(question, answer);
  }

  private static Refused unreadable(String question, String answer) {
    return new Refused("%s: \"%s\" is not a number of 0 or more.".formatted(question, answer));
  }

  private String answer(String prompt) throws IOException, Refused, Undo {
    if (silent) {
      return "";
    }
    out.print(prompt);
    out.flush();
    String line = in.readLine();
    if (line == null) {
      throw new Refused("The input ended; nothing was changed.");
    }
    String answer = line.strip().toLowerCase(Locale.ROOT);
    if (answer.equals("undo")) {
      throw new Undo();
    }
    return answer;
  }
}
