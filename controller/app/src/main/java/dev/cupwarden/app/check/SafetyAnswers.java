package dev.cupwarden.app.check;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** Asks the safety questions that no option has answered; without an answer they count as no. */
final class SafetyAnswers {
  private final Set<String> confirmed;
  private final BufferedReader in;
  private final PrintWriter out;
  private final boolean ask;

  /**
   * @param confirmed words of questions answered by option; {@code all} for every one
   * @param ask whether a person sits there to be asked
   */
  SafetyAnswers(Set<String> confirmed, BufferedReader in, PrintWriter out, boolean ask) {
    this.confirmed = confirmed;
    this.in = in;
    this.out = out;
    this.ask = ask;
  }

  List<Finding> all() throws IOException {
    List<Finding> findings = new ArrayList<>();
    for (SafetyQuestion question : SafetyQuestion.values()) {
      boolean yes =
          confirmed.contains("all")
              || confirmed.contains(question.word())
              || (ask && answered(question));
      findings.add(
          yes
              ? Finding.ok("safety", question.word() + ": confirmed")
              : Finding.fail("safety", question.word() + ": not confirmed. " + question.text()));
    }
    return findings;
  }

  private boolean answered(SafetyQuestion question) throws IOException {
    out.print(question.text() + " [y/N] ");
    out.flush();
    String answer = in.readLine();
    return answer != null && Set.of("y", "yes").contains(answer.strip().toLowerCase(Locale.ROOT));
  }
}
