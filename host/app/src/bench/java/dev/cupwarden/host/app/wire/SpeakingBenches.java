package dev.cupwarden.host.app.wire;

import java.util.ArrayList;
import java.util.List;

/**
 * The benches that speak to one host; closed before it, for a bench that loses its broker says so.
 */
final class SpeakingBenches implements AutoCloseable {
  private final List<SpeakingBench> benches = new ArrayList<>();

  /** Lets so many benches of so many cups speak to the broker, each second. */
  void start(int count, int cups, String broker) throws Exception {
    for (int number = 1; number <= count; number++) {
      SpeakingBench bench = new SpeakingBench("bench-" + number, cups, broker);
      benches.add(bench);
      bench.start();
    }
  }

  /** They say no more; what is under way goes on. */
  void stop() throws InterruptedException {
    for (SpeakingBench bench : benches) {
      bench.stop();
    }
  }

  /** Readings said. */
  long readings() {
    return benches.stream().mapToLong(SpeakingBench::readings).sum();
  }

  /** Events said that no host has kept yet. */
  long unkept() {
    return benches.stream().mapToLong(SpeakingBench::unkept).sum();
  }

  /** From saying an event to hearing that it is kept, of all since the last call. */
  Latency takeLatency() {
    return Latency.of(benches.stream().flatMap(each -> each.takeLatenciesMs().stream()).toList());
  }

  @Override
  public void close() throws Exception {
    for (SpeakingBench bench : benches) {
      bench.close();
    }
  }
}
