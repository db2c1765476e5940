package dev.cupwarden.app.check;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Asks the safety questions that no option has answered; without an answer they count as no. */
final class SafetyAnswers {
  private final Set<String> confirmed;
  private final Proof.Person person;
  private final boolean ask;

  /**
   * @param confirmed words of questions answered by option; {@code all} for every one
   * @param ask whether a person sits there to be asked
   */
  SafetyAnswers(Set<String> confirmed, Proof.Person person, boolean ask) {
    this.confirmed = confirmed;
    this.person = person;
    this.ask = ask;
  }

  List<Finding> all() throws IOException {
    List<Finding> findings = new ArrayList<>();
    for (SafetyQuestion question : SafetyQuestion.values()) {
      boolean yes =
          confirmed.contains("all")
              || confirmed.contains(question.word())
              || (ask && person.sees(question.text()));
      findings.add(
          yes
              ? Finding.ok("safety", question.word() + ": confirmed")
              : Finding.fail("safety", question.word() + ": not confirmed. " + question.text()));
    }
    return findings;
  }
}
