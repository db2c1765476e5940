package dev.cupwarden.host.app.wire;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A host with its own broker under the load of two benches of 200 cups with readings each second:
 * each minute its memory, what is under way, and how long an event takes to be kept; at the end
 * whether memory was flat and all was stored.
 */
public final class LoadBench {
  private static final int BENCHES = 2;
  private static final int CUPS = 200;
  private static final long CATCH_UP_S = 30;

  /** By how much the last third's highest may lie above that of the third before it. */
  private static final double FLAT = 1.1;

  private final SpeakingBenches benches = new SpeakingBenches();
  private final List<Double> heapMib = new ArrayList<>();
  private final List<Double> residentMib = new ArrayList<>();

  private LoadBench() {}

  /** Arguments: how many minutes. */
  public static void main(String[] arguments) throws Exception {
    new LoadBench().run(Integer.parseInt(arguments[0]));
    System.exit(0);
  }

  private void run(int minutes) throws Exception {
    Path data = Files.createTempDirectory("cupwarden-load");
    try (MeteredHost host = MeteredHost.start(data);
        benches) {
      System.out.printf(
          "%d benches of %d cups, a reading of each cup a second, %d minutes%n",
          BENCHES, CUPS, minutes);
      benches.start(BENCHES, CUPS, host.broker());
      for (int minute = 1; minute <= minutes; minute++) {
        TimeUnit.MINUTES.sleep(1);
        tell(minute, host);
      }
      benches.stop();
      conclude(host);
    }
  }

  private long backlog(MeteredHost host) throws Exception {
    return benches.readings() - host.readingsStored();
  }

  private void tell(int minute, MeteredHost host) throws Exception {
    long backlog = backlog(host);
    residentMib.add(host.residentMib());
    heapMib.add(host.heapAfterGcMib());
    System.out.printf(
        "%3d min: resident %.0f MiB, heap after collection %.1f MiB, under way %d readings and %d"
            + " events, kept after %s%n",
        minute,
        residentMib.get(minute - 1),
        heapMib.get(minute - 1),
        backlog,
        benches.unkept(),
        benches.takeLatency());
  }

  private void conclude(MeteredHost host) throws Exception {
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(CATCH_UP_S);
    while ((backlog(host) > 0 || benches.unkept() > 0) && System.nanoTime() < until) {
      TimeUnit.MILLISECONDS.sleep(50);
    }
    System.out.printf(
        "back-log at the end: %d readings, %d events: %s%n",
        backlog(host), benches.unkept(), backlog(host) == 0 && benches.unkept() == 0 ? "kept" : "BROKEN");
    tellFlat("resident memory", residentMib);
    tellFlat("heap after collection", heapMib);
  }

  private static void tellFlat(String what, List<Double> mib) {
    int third = mib.size() / 3;
    if (third == 0) {
      System.out.println(what + ": three minutes at least are needed to say whether it is flat");
      return;
    }
    double before = highest(mib.subList(mib.size() - 2 * third, mib.size() - third));
    double last = highest(mib.subList(mib.size() - third, mib.size()));
    System.out.printf(
        "%s: at most %.1f MiB in the middle third, %.1f MiB in the last: %s%n",
        what, before, last, last <= FLAT * before ? "kept flat" : "BROKEN");
  }

  private static double highest(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
  }
}
