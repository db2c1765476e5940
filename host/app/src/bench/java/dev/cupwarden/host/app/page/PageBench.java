package dev.cupwarden.host.app.page;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * What the page costs: its weight, how soon it is seen, and what two hundred cups that change once a
 * second take of its frames.
 */
public final class PageBench {
  private static final int CUPS = 200;
  private static final int SECONDS = 10;

  private PageBench() {}

  public static void main(String[] none) throws IOException, InterruptedException {
    say("page weight, all views with their libraries: %.1f KB gzip", PageWeight.bytes() / 1024.0);
    try (Browser browser = new Browser()) {
      browser.size(Browser.WIDE).scheme("light");
      demo(browser);
      firstPaint(browser, 12);
      firstPaint(browser, CUPS);
      updates(browser);
    }
  }

  /** With broker, store, controller and simulated bench beside the browser, time running fast. */
  private static void demo(Browser browser) throws IOException, InterruptedException {
    if (!Files.exists(PackagedDemo.JAR)) {
      say("the demo is not packaged: mvn -pl host/app -am package");
      return;
    }
    try (PackagedDemo demo = new PackagedDemo()) {
      for (String visit : List.of("first visit", "second visit")) {
        browser.open(demo.address);
        browser.await("12 cups", () -> browser.textsOf(".card").size() == 12);
        tellPaint(browser, "the demo, " + visit);
      }
    }
  }

  private static void firstPaint(Browser browser, int cups) {
    try (StubHost host = StubHost.withCups(cups)) {
      browser.open(host.address());
      browser.awaitText("h1", "All " + cups + " cups are well.");
      tellPaint(browser, cups + " cups");
    }
  }

  private static void tellPaint(Browser browser, String what) {
    List<?> ms =
          (List<?>)
              browser.run(
                  "const cards = document.querySelectorAll('.card').length;"
                      + "return [performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? -1,"
                      + " performance.getEntriesByType('mark').find(m => m.name === 'bench-shown')?.startTime ?? -1, cards]");
    say(
        "%s: first paint after %.0f ms, the bench with all its cups after %.0f ms",
        what, number(ms, 0), number(ms, 1));
  }

  /** Every cup's status and weight once a second, as a bench of that size would tell them. */
  private static void updates(Browser browser) {
    try (StubHost host = StubHost.withCups(CUPS)) {
      browser.open(host.address());
      browser.awaitText("h1", "All " + CUPS + " cups are well.");
      Object told =
          browser.driver.executeAsyncScript(
              """
              const done = arguments[arguments.length - 1];
              const seconds = arguments[0];
              import('/js/store.js').then(({store}) => {
                const frames = [];
                const work = [];
                let last = performance.now();
                let over = false;
                const frame = (now) => {
                  frames.push(now - last);
                  last = now;
                  if (!over) requestAnimationFrame(frame);
                };
                new PerformanceObserver((list) => list.getEntries().forEach((entry) => work.push(entry.duration)))
                    .observe({entryTypes: ['longtask']});
                requestAnimationFrame((now) => { last = now; requestAnimationFrame(frame); });
                let round = 0;
                const timer = setInterval(() => {
                  round += 1;
                  for (const cup of [...store.bench('attic').cups.values()]) {
                    const at = new Date(Date.parse(cup.at) + 1000).toISOString();
                    store.hear('cup', {bench: 'attic', cup: {...cup, at, depletion: cup.depletion + 0.0005}});
                    store.hear('weight', {bench: 'attic', cup: cup.cup, at: Date.parse(at) / 1000, mass_g: cup.mass_g - 0.1});
                  }
                  if (round === seconds) {
                    clearInterval(timer);
                    setTimeout(() => { over = true; done({frames, work}); }, 900);
                  }
                }, 1000);
              });
              """,
              SECONDS);
      List<Double> frames = sorted(((Map<?, ?>) told).get("frames"));
      List<Double> work = sorted(((Map<?, ?>) told).get("work"));
      say(
          "%d cups at 1 Hz for %d s: frames median %.1f ms, 99 %% %.1f ms, longest %.1f ms;"
              + " %.1f %% of frames over 50 ms; tasks over 50 ms: %d, longest %.0f ms",
          CUPS,
          SECONDS,
          frames.get(frames.size() / 2),
          frames.get(frames.size() * 99 / 100),
          frames.get(frames.size() - 1),
          100.0 * frames.stream().filter(each -> each > 50).count() / frames.size(),
          work.size(),
          work.isEmpty() ? 0.0 : work.get(work.size() - 1));
    }
  }

  private static List<Double> sorted(Object numbers) {
    return ((List<?>) numbers).stream().map(each -> ((Number) each).doubleValue()).sorted().toList();
  }

  private static double number(List<?> numbers, int index) {
    return ((Number) numbers.get(index)).doubleValue();
  }

  private static void say(String format, Object... values) {
    System.out.println(String.format(Locale.ROOT, format, values));
  }
}
