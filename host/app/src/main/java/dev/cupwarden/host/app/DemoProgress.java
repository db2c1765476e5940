package dev.cupwarden.host.app;

import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.core.messages.Dose;
import java.io.PrintWriter;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicReference;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;

/**
 * How the demo goes, for its terminal: a bar that moves, or, where nobody looks at a terminal, a
 * line now and then.
 */
final class DemoProgress implements AutoCloseable {
  private static final long LINE_EVERY_NANOS = Duration.ofSeconds(30).toNanos();
  private static final int BAR_EVERY_MS = 500;

  private final PrintWriter out;
  private final ProgressBar bar;
  private final AtomicReference<Sum> sum = new AtomicReference<>(new Sum(null, null, 0, 0));
  private long lineDueNanos = System.nanoTime() + LINE_EVERY_NANOS;
  private boolean firstTold;

  /** What has happened since the start. */
  private record Sum(Instant first, Instant now, int passes, double ml) {
    Sum with(TickReport report) {
      double givenMl =
          report.doses().stream().mapToDouble(dose -> dose.plainMl() + dose.feedMl()).sum();
      return new Sum(
          first == null ? report.at() : first,
          report.at(),
          passes + report.doses().size(),
          ml + givenMl);
    }

    String sentence() {
      return String.format(
          Locale.ROOT,
          "%s on the bench, day %d, %d passes, %.0f mL given",
          now.truncatedTo(ChronoUnit.MINUTES),
          Duration.between(first, now).toDays() + 1,
          passes,
          ml);
    }
  }

  private DemoProgress(PrintWriter out, ProgressBar bar) {
    this.out = out;
    this.bar = bar;
  }

  static DemoProgress on(PrintWriter out) {
    boolean terminal = System.console() != null;
    return new DemoProgress(out, terminal ? newBar() : null);
  }

  private static ProgressBar newBar() {
    return new ProgressBarBuilder()
        .setInitialMax(-1)
        .setTaskName("demo")
        .setUpdateIntervalMillis(BAR_EVERY_MS)
        .hideEta()
        .build();
  }

  /** Hears of a tick, on the bench's own thread. */
  void hear(TickReport report) {
    sum.updateAndGet(before -> before.with(report));
    if (!firstTold && !report.doses().isEmpty()) {
      firstTold = true;
      Dose dose = report.doses().get(0);
      say(
          String.format(
              Locale.ROOT,
              "The first cup is watered: %.0f mL for %s at %s.",
              dose.plainMl() + dose.feedMl(),
              dose.cup(),
              report.at()));
    }
  }

  /** To be called now and then. */
  void look() {
    Sum now = sum.get();
    if (now.now() == null) {
      return;
    }
    if (bar != null) {
      bar.step();
      bar.setExtraMessage(now.sentence());
    } else if (System.nanoTime() >= lineDueNanos) {
      lineDueNanos = System.nanoTime() + LINE_EVERY_NANOS;
      say(now.sentence());
    }
  }

  private void say(String line) {
    synchronized (out) {
      out.println(line);
      out.flush();
    }
  }

  @Override
  public void close() {
    if (bar != null) {
      bar.close();
    }
    if (sum.get().now() != null) {
      say("Ended: " + sum.get().sentence() + ".");
    }
  }
}
