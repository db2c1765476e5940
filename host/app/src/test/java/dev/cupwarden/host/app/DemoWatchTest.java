package dev.cupwarden.host.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A week of the demo's bench under watch, beside a grower's can. */
class DemoWatchTest {
  private static final Duration LIMIT = Duration.ofMinutes(10);
  private static final Duration WEEK = Duration.ofDays(7);
  @TempDir Path folder;
  private final StringWriter told = new StringWriter();

  @Test
  void aWeekIsToldCupByCupBesideTheCan() throws Exception {
    HostSettings settings =
        HostSettings.local(
            folder,
            LoopbackPort.anyFree("the page", "--port"),
            LoopbackPort.anyFree("the broker", "--broker-port"));
    try (Host host = Host.start(settings)) {
      DemoBench.Plan plan =
          new DemoBench.Plan(
              URI.create(host.brokerUri()),
              folder.resolve("bench"),
              1,
              AcceleratedTime.UNBOUNDED,
              RunMode.WATCH);
      try (DemoBench bench = DemoBench.start(plan, report -> {})) {
        Instant begins = bench.now();
        DemoWatch watch = new DemoWatch(plan.journal(), begins, new PrintWriter(told));
        watch.look(begins.plus(WEEK).minusSeconds(1));
        assertEquals("", told.toString(), "told before the week is over");
        await("a week").atMost(LIMIT).until(() -> bench.now().isAfter(begins.plus(WEEK)));
        watch.look(bench.now());
      }
      try (JournalExport journal = JournalExport.open(plan.journal())) {
        assertEquals(List.of(), journal.passes());
      }
    }
    tells("A week was watched.");
    tells("A1 blackcurrant, toughened\n");
    tells("mL by hand; not due at depletion 0.");
    tells("by hand before it was due");
    tells("would have had");
    tells("later by hand");
    tells("not given");
    assertEquals(12, told.toString().split(" days: ", -1).length - 1, told::toString);
  }

  private void tells(String words) {
    assertTrue(told.toString().contains(words), () -> "no \"" + words + "\" in: " + told);
  }
}
