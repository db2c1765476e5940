package dev.cupwarden.app;

import dev.cupwarden.app.journal.DecisionReplay;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.CupStatus;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code journal why}: the reasons of a cup at any moment that the journal holds. */
@Command(
    name = "why",
    description = {
      "Explains why a cup was watered, or was not, at a past moment, by deciding it again from what was"
          + " seen then."
    },
    mixinStandardHelpOptions = true)
final class WhyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "The journal.")
  private Path file;

  @Option(names = "--cup", required = true, paramLabel = "NAME", description = "Which cup.")
  private String cup;

  @Option(
      names = "--at",
      paramLabel = "TIME",
      description = "When, such as 2027-02-14T14:00:00Z; else the last that was seen.")
  private Instant at = Instant.MAX;

  @Override
  public Integer call() {
    return JournalCommand.read(
        spec, file, (journal, out) -> tell(DecisionReplay.of(journal, cup, at), out));
  }

  private static void tell(DecisionReplay.Moment moment, PrintWriter out) {
    CupStatus status = moment.cup();
    line(
        out,
        "%s at %s: %s, %s, %s",
        status.cup(),
        moment.at(),
        status.plant(),
        status.stage().word(),
        status.state().word());
    if (status.depletion() != null) {
      line(
          out,
          "  depletion %.3f (sd %.3f): refill line %.2f, due %.2f, dry %.2f, wet %.2f",
          status.depletion(),
          status.sd(),
          status.refill(),
          status.due(),
          status.dry(),
          status.wet());
    }
    if (status.dueAt() != null) {
      line(out, "  due %s, dry %s", status.dueAt(), status.dryAt());
    }
    if (status.rooting() != null) {
      line(out, "white roots", status.rooting().white());
      line(out, "toughened roots", status.rooting().toughened());
    }
    for (AllowedPass pass : moment.passes()) {
      line(
          out,
          "  given %.1f mL plain and %.1f mL feed, strength %.3f: %s",
          pass.plainMl(),
          pass.feedMl(),
          pass.strength(),
          pass.why());
    }
    if (moment.passes().isEmpty() && status.reasons().isEmpty()) {
      line(out, "  no limit holds it back: it wants no water yet");
    }
    for (CupStatus.Told told : status.reasons()) {
      line(out, "  %s: %s", told.code(), told.sentence());
    }
  }

  private static void line(PrintWriter out, String what, CupStatus.LikelyDay day) {
    if (day != null) {
      line(
          out,
          "  %s likely on %s, in eight of ten cases from %s to %s",
          what,
          day.likely(),
          day.from(),
          day.to());
    }
  }

  private static void line(PrintWriter out, String format, Object... values) {
    out.println(String.format(Locale.ROOT, format, values));
  }
}
