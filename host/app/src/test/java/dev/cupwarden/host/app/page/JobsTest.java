package dev.cupwarden.host.app.page;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Receipt;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AutoClose;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.support.ui.Select;

/**
 * A grower's jobs of a day and a winter, each begun at the bench's first view and done on a phone
 * and on a laptop; a build plays some of them on a phone. Taps, fields and seconds are counted into
 * {@code target/jobs.md}; seconds are those of a machine that neither reads nor thinks, so they
 * tell of the page alone.
 */
class JobsTest {
  private static final List<String> NOT_ON_THE_PAGE =
      List.of(
          "second bench from the page: a bench comes by its controller's own file",
          "first-run guide from nothing to a working bench: the page tells the steps, no more",
          "users and rights: by the command user, at the host",
          "name of a cup: in the bench file, with the bench stopped");

  /** A build plays the phone, where less fits; {@code -Djobs.screens=2} the laptop as well. */
  private static final int SCREENS = Integer.getInteger("jobs.screens", 1);

  /** Of the jobs on a canned bench a build plays so many fewer: each loads the page anew. */
  private static final int EACH = SCREENS > 1 ? 1 : 3;

  private static final List<String> ELSEWHERE = List.of("sign in on a phone: SignedInPageTest");

  @AutoClose private static final Browser browser = new Browser().scheme("light");

  @TempDir private Path folder;
  private final Map<String, Map<String, String>> table = new LinkedHashMap<>();
  private final List<String> undone = new ArrayList<>();
  private Dimension screen;
  private StubHost host;
  private int jobs;
  private int taps;
  private int fields;

  /** What a grower does to get a job done; it throws where the page does not let it. */
  private interface Steps {
    void take() throws Exception;
  }

  private void job(String name, Steps steps) {
    StubHost bench = StubHost.troubled();
    bench.alerts.removeIf(alert -> "A8".equals(alert.cup()));
    job(name, bench, steps);
  }

  private void job(String name, StubHost bench, Steps steps) {
    host = bench;
    try (bench) {
      if (jobs++ % EACH > 0) {
        return;
      }
      browser.size(screen).open(bench.address());
      browser.awaitText("h1", "need");
      measure(name, steps);
    }
  }

  private void measure(String name, Steps steps) {
    taps = 0;
    fields = 0;
    long begun = System.nanoTime();
    String came;
    try {
      steps.take();
      double seconds = (System.nanoTime() - begun) * 1e-9;
      came = String.format(Locale.ROOT, "%d taps, %d fields, %.1f s", taps, fields, seconds);
    } catch (Exception | AssertionError failed) {
      came = "not done";
      undone.add(
          name
              + ", "
              + screen.width
              + ": "
              + String.valueOf(failed.getMessage()).lines().findFirst().orElse(""));
    }
    browser.consoleErrors().forEach(error -> undone.add(name + ": " + error));
    table
        .computeIfAbsent(name, same -> new LinkedHashMap<>())
        .put(screen.width > 500 ? "laptop" : "phone", came);
  }

  private void tap(String css) {
    browser.tap(css);
    taps++;
  }

  /** A button or link by its words. */
  private void tapWords(String css, String words) {
    browser.awaitText(css, words);
    browser.run(
        "const found = [...document.querySelectorAll(arguments[0])].find(e => e.innerText.includes(arguments[1]));"
            + " found.scrollIntoView({block: 'center', behavior: 'instant'}); found.click()",
        css,
        words);
    taps++;
  }

  private void type(WebElement field, String words) {
    field.clear();
    field.sendKeys(words);
    fields++;
  }

  private void amount(String words) {
    type(browser.find("form input[inputmode=decimal]"), words);
  }

  private void choose(String label, String words) {
    new Select(browser.labelled(label)).selectByVisibleText(words);
    fields++;
  }

  private void see(String css, String words) {
    browser.awaitText(css, words);
  }

  private void cup(String name) {
    tap("a.card[href$='/" + name + "']");
    see(".doing h2", "Do something with this cup");
  }

  private void nav(String path) {
    tap("nav a[data-path='" + path + "']");
  }

  private void all() {
    tap(".chooser button");
    see(".chosen [role=status]", "12 cups chosen");
  }

  private ObjectNode send(String kind) {
    tap("form button[type=submit]");
    browser.await("the order goes", () -> !host.orders.isEmpty());
    assertEquals(kind, host.orders.get(0).get("kind").asText());
    return host.orders.get(0);
  }

  private void ofCup(String name, String kind, String cup, Steps more) {
    job(
        name,
        () -> {
          cup(cup);
          tap(".doing a[data-kind=" + kind + "]");
          see("form", "");
          more.take();
          send(kind);
        });
  }

  private void ofAll(String name, String kind, Steps more) {
    job(
        name,
        StubHost.troubled(),
        () -> {
          all();
          tap(".chosen [data-kind=" + kind + "]");
          see(".says", "One order for");
          more.take();
          send(kind);
        });
  }

  private void setting(String name, String key, String to) {
    job(
        name,
        () -> {
          nav("do");
          tap("a[href$='/do/change']");
          choose("Setting", key);
          type(browser.labelled("From now on"), to);
          send("change");
        });
  }

  @Test
  void jobsOfAWinterAreDone() throws Exception {
    for (Dimension each : Browser.screens().skip(SCREENS > 1 ? 0 : 1).toList()) {
      screen = each;
      looks();
      orders();
      setUps();
      onARealHost();
    }
    write();
    assertEquals(List.of(), undone);
  }

  private void looks() {
    job("see what needs me", () -> see("h1", "need a look"));
    job(
        "why not now",
        () -> {
          cup("A3");
          see(".panel", "more water than its wet line allows");
        });
    job(
        "why at a past time",
        () -> {
          cup("A8");
          browser.find(".chart canvas");
          tap(".chart");
          browser.run("document.querySelector('.chart').focus()");
          browser.shift(Keys.ARROW_LEFT);
          fields++;
          see("main", "So ");
        });
    for (String range : List.of("Today", "7 days", "This winter")) {
      job(
          "given: " + range,
          () -> {
            nav("days");
            tapWords("[data-part=given] button", range);
            see("[data-part=given] [role=status]", ":");
          });
    }
    job(
        "next seven days",
        () -> {
          nav("days");
          see(".days li", "Today");
        });
    job(
        "alert history",
        () -> {
          nav("alerts");
          see("table", "Tank low");
        });
    job(
        "find what changed since yesterday",
        () -> {
          browser.run("localStorage.setItem('cupwarden.look.attic', '1')");
          browser.open("about:blank");
          host.now = host.now.plus(Duration.ofHours(20));
          host.pass("A9", 30, "due");
          browser.open(host.address());
          see(".news h2", "New since you looked");
        });
    job(
        "units and zone",
        () -> {
          tap("footer a[href='#/units']");
          tapWords("label.check", "US fl oz and gal");
          see("[role=status]", "fl oz");
          browser.run("localStorage.clear()");
        });
  }

  private void orders() {
    job(
        "hold bench",
        () -> {
          nav("do");
          tap("a[href$='/do/hold']");
          send("hold");
        });
    ofCup("hold cup", "hold", "A8", () -> {});
    ofCup("release", "release", "A6", () -> {});
    ofCup("out for the day, one", "away", "A8", () -> {});
    ofAll("out for the day, all", "away", () -> {});
    ofCup("back, one", "back", "A5", () -> {});
    job(
        "back, all that are out",
        () -> {
          host.turn("A8", CupActivity.AWAY);
          see(".card[data-group=aside]", "A8");
          all();
          tap(".chosen [data-kind=back]");
          assertEquals(2, send("back").get("cups").size());
        });
    ofCup("roots seen, one", "stage", "A8", () -> tap("input[value=white]"));
    ofAll("roots seen, all", "stage", () -> tap("input[value=white]"));
    ofCup("drained", "drained", "A8", () -> {});
    ofCup("watered by hand, one", "watered", "A8", () -> amount("40"));
    ofAll("watered by hand, all", "watered", () -> amount("40"));
    ofCup("dose now", "dose", "A8", () -> amount("20"));
    ofCup("cover", "cover", "A8", () -> {});
    answered("flush", "salts-high", "flush", () -> amount("90"));
    answered("clear a latch", "dose-short", "clear", () -> {});
    job(
        "put an alert off",
        () -> {
          nav("alerts");
          tap("section[data-code=scale-stuck] [data-later=day]");
          browser.await("the order goes", () -> !host.orders.isEmpty());
        });
    filled("fill plain", "plain", () -> {});
    filled("fill feed", "feed", () -> {});
    filled(
        "change a tank's feed",
        "feed",
        () -> {
          choose("What is in it now", "plain water");
          type(browser.labelled("Feed strength"), "0");
        });
    job(
        "mix by recipe",
        () -> {
          nav("tanks");
          see("p[role=status]", "g of feed");
        });
    job(
        "undo an order",
        () -> {
          cup("A8");
          tap(".doing a[data-kind=watered]");
          amount("40");
          send("watered");
          host.receive(Receipt.done("o-1"));
          tapWords("tr[data-order=o-1] button", "Take it back");
          browser.await("it is taken back", () -> host.orders.size() == 2);
        });
  }

  private void answered(String name, String code, String kind, Steps more) {
    StubHost bench = StubHost.troubled();
    bench.alerts.add(new AlertNotice(code, "A8", "raised", bench.now, 3, 2.6, "Look at the cup."));
    job(
        name,
        bench,
        () -> {
          nav("alerts");
          tap("section[data-code=" + code + "] a.act");
          see("form", "");
          more.take();
          send(kind);
        });
  }

  private void filled(String name, String tank, Steps more) {
    job(
        name,
        () -> {
          nav("tanks");
          tap("a[href$='/do/filled/" + tank + "']");
          amount("3");
          more.take();
          send("filled");
        });
  }

  private void setUps() {
    setting("change window or lines", "climate.cold", "11 C");
    job(
        "add cup",
        () -> {
          nav("do");
          tap("a[href$='/do/add']");
          type(browser.labelled("Cup"), "B1");
          type(browser.labelled("Plant"), "mulberry");
          send("add");
        });
    ofCup("copy cup", "add", "A8", () -> {});
    ofCup("repot", "repot", "A8", () -> choose("Vessel", "short"));
    ofCup(
        "change plant or variety",
        "change",
        "A1",
        () -> type(browser.labelled("From now on"), "fig"));
    ofCup(
        "retire",
        "retire",
        "A8",
        () -> {
          tap("input[value=rooted]");
          tap("form > div > label.check input");
        });
    job(
        "put back a retired one",
        () -> {
          nav("season");
          tap("a[href$='/do/add/A13']");
          browser.await(
              "what it was is known",
              () -> "mulberry".equals(browser.labelled("Plant").getDomProperty("value")));
          send("add");
        });
  }

  private void onARealHost() throws Exception {
    StubHost bench = StubHost.unserved(12);
    bench.file =
        Optional.of(
            """
            bench: attic
            feeding:
              plan:
                - {from: 2026-11-01, feed: leafy}
            mixes:
              coir: {retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}, unavailable: 0.10, least_air: 0.10, dry_density: 0.10}
            vessels:
              tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
            feeds:
              leafy: {analysis: {N: 20, P2O5: 10, K2O: 20}, label: {amount: 1 g, per: 1 L, every: 14 d}, spoon: 5 g, ec: 1.2}
            cups:
              A1: {vessel: tall, mix: coir, plant: fig, stage: struck, cutting: 12 g}
            """);
    Path data = Files.createDirectory(folder.resolve("data-" + screen.width));
    try (RealHost real = new RealHost(data, bench)) {
      browser.size(screen).open(real.address());
      browser.awaitText("h1", "All 12 cups are well.");
      measure(
          "change plan",
          () -> {
            nav("do");
            tap("a[href$='/attic/file']");
            String text = browser.find("textarea").getDomProperty("value");
            browser.run(
                "const area = document.querySelector('textarea'); area.value = arguments[0];"
                    + " area.dispatchEvent(new Event('input'))",
                text.replace("2026-11-01", "2026-12-24"));
            fields++;
            tap("button.main");
            see(".says .go", "feeding.plan");
            tap("[aria-live] button.main");
            see("main", "1 change sent");
          });
      Path photo = folder.resolve("wall-" + screen.width + ".jpg");
      ImageIO.write(
          new BufferedImage(800, 600, BufferedImage.TYPE_INT_RGB), "jpeg", photo.toFile());
      browser.open(real.address());
      measure(
          "note",
          () -> {
            tap("a.card[href$='/A8']");
            type(browser.labelled("What you saw"), "White tips.");
            tap(".notes button.main");
            see(".notes .says", "White tips.");
          });
      measure(
          "photo",
          () -> {
            browser.find(".notes input[type=file]").sendKeys(photo.toString());
            fields++;
            tap(".notes button.main");
            browser.await("it is kept", () -> browser.textsOf(".weeks figure").size() == 1);
          });
      browser.open(real.address());
      measure(
          "compare photos",
          () -> {
            tap("a.card[href$='/A8']");
            see(".weeks figure", "by page");
          });
      browser.open("about:blank");
    }
  }

  private void write() throws IOException {
    StringBuilder words = new StringBuilder("| job | laptop | phone |\n|---|---|---|\n");
    table.forEach(
        (name, by) ->
            words.append(
                "| %s | %s | %s |%n"
                    .formatted(
                        name,
                        by.getOrDefault("laptop", "not played"),
                        by.getOrDefault("phone", "not played"))));
    ELSEWHERE.forEach(each -> words.append("\nShown elsewhere: ").append(each));
    NOT_ON_THE_PAGE.forEach(each -> words.append("\nNot on the page: ").append(each));
    Files.writeString(Path.of("target", "jobs.md"), words.append('\n').toString());
    System.out.println(words);
  }
}
