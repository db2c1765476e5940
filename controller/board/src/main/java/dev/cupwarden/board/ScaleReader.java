package dev.cupwarden.board;

import dev.cupwarden.core.setup.BoardWiring;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Reads every scale of the bench. All converters run side by side and are polled in turn, so that a
 * scan of two hundred takes hardly longer than of one. A converter that fails is a fault of its own
 * scale and is begun anew at the next scan, or at once when it had lost its supply; the scan has a
 * bound in time.
 */
final class ScaleReader {
  /** Odd, so that the median is one of them; a spike or two do not reach it. */
  private static final int CONVERSIONS = 5;

  private static final Duration SETTLES_WITHIN = Duration.ofSeconds(4);
  private static final int PERIODS_WITHIN = 4;
  private static final Duration POLL = Duration.ofMillis(20);

  private final List<ScaleChannel> channels = new ArrayList<>();
  private final Pace pace;

  ScaleReader(Pace pace) {
    this.pace = pace;
  }

  /** Adds a scale. */
  void add(String name, BoardWiring.Scale scale, WeightConverter converter) {
    channels.add(new ScaleChannel(name, scale, converter));
  }

  /**
   * One scan.
   *
   * @param massG by scale
   * @param faults by scale, for those that are not in {@code massG}
   */
  record Scan(SortedMap<String, Double> massG, SortedMap<String, String> faults) {}

  /** Reads every scale; never throws for one that fails. */
  Scan scan() {
    channels.forEach(ScaleChannel::wake);
    settle();
    for (int round = 0; round < CONVERSIONS; round++) {
      convert();
      if (channels.stream().anyMatch(ScaleChannel::wantsSettling)) {
        settle(); // one that lost its supply in the midst is back within this scan
        round = -1;
        channels.forEach(ScaleChannel::restart);
      }
    }
    SortedMap<String, Double> massG = new TreeMap<>();
    SortedMap<String, String> faults = new TreeMap<>();
    channels.forEach(channel -> channel.report(massG, faults));
    return new Scan(massG, faults);
  }

  private void settle() {
    poll(
        channels.stream().filter(ScaleChannel::wantsSettling).toList(),
        SETTLES_WITHIN,
        ScaleChannel::pollSettled,
        "The converter does not settle.");
  }

  private void convert() {
    List<ScaleChannel> live = channels.stream().filter(ScaleChannel::live).toList();
    Duration longest =
        live.stream().map(ScaleChannel::period).max(Duration::compareTo).orElse(Duration.ZERO);
    poll(
        live,
        longest.multipliedBy(PERIODS_WITHIN),
        ScaleChannel::pollConversion,
        "The converter gives no new conversion.");
  }

  /** One question to a channel; true when it is done with, one way or the other. */
  private interface Question {
    boolean answered(ScaleChannel channel);
  }

  private void poll(
      Collection<ScaleChannel> asked, Duration within, Question question, String tooLate) {
    List<ScaleChannel> pending = new ArrayList<>(asked);
    long deadline = pace.nanos() + within.toNanos();
    while (true) {
      pending.removeIf(question::answered);
      if (pending.isEmpty()) {
        return;
      }
      if (pace.nanos() >= deadline || Thread.currentThread().isInterrupted()) {
        pending.forEach(channel -> channel.fail(tooLate));
        return;
      }
      pace.pause(POLL);
    }
  }
}
