package dev.cupwarden.core.checks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a mutation run left alive, held against the list of those that were read. The list is
 * written by hand only.
 *
 * @param alive as the list names them: {@code room.Class.method Mutator index}
 * @param scores killed and all, by room
 */
public record Survivors(Set<String> alive, Map<String, int[]> scores) {
  private static final Pattern MUTATION =
      Pattern.compile("<mutation detected='(true|false)' status='([A-Z_]+)'.*?</mutation>");

  /** Of each room at least so much must be killed. */
  private static final double LEAST_PCT = 90.0;

  /**
   * @param args the run's {@code mutations.xml} and the list of those that were read
   */
  public static void main(String[] args) throws IOException {
    Survivors run = of(Files.readString(Path.of(args[0])));
    run.scores.forEach((room, score) -> System.out.println(scored(room, score)));
    List<String> wrong = run.heldAgainst(Files.readAllLines(Path.of(args[1])));
    wrong.forEach(System.out::println);
    if (!wrong.isEmpty()) {
      throw new IllegalStateException(wrong.size() + " lines above, by " + args[1]);
    }
  }

  /** Of a run's report. */
  static Survivors of(String report) {
    Survivors run = new Survivors(new TreeSet<>(), new TreeMap<>());
    Matcher mutations = MUTATION.matcher(report);
    while (mutations.find()) {
      String xml = mutations.group();
      boolean killed = mutations.group(1).equals("true");
      String type = tag(xml, "mutatedClass").replace("dev.cupwarden.core.", "");
      int[] score = run.scores.computeIfAbsent(room(type), room -> new int[2]);
      score[0] += killed ? 1 : 0;
      score[1]++;
      if (!killed) {
        String mutator = tag(xml, "mutator").replaceAll(".*\\.", "");
        String at = type + "." + tag(xml, "mutatedMethod") + " ";
        run.alive.add(at + mutator + " " + tag(xml, "index"));
      }
    }
    return run;
  }

  /**
   * What is wrong: a survivor that nobody has read, an entry that is alive no more, a room of which
   * too little was killed. Entries of rooms that the run did not change are left alone.
   */
  List<String> heldAgainst(List<String> list) {
    Set<String> fresh = new TreeSet<>(alive);
    Set<String> stale = new TreeSet<>();
    for (String line : list) {
      String entry = line.strip();
      boolean ofThisRun = !line.startsWith("#") && scores.containsKey(room(entry));
      if (ofThisRun && !fresh.remove(entry)) {
        stale.add(entry);
      }
    }
    List<String> wrong = new ArrayList<>();
    fresh.forEach(one -> wrong.add("alive, and not in the list: " + one));
    stale.forEach(one -> wrong.add("in the list, and no longer alive: " + one));
    scores.forEach(
        (room, score) -> {
          if (100.0 * score[0] < LEAST_PCT * score[1]) {
            wrong.add("less than " + LEAST_PCT + " %: " + scored(room, score));
          }
        });
    return wrong;
  }

  private static String scored(String room, int[] score) {
    double pct = 100.0 * score[0] / score[1];
    return String.format(
        Locale.ROOT, "mutations of %s: %d of %d killed, %.1f %%", room, score[0], score[1], pct);
  }

  private static String room(String entry) {
    return entry.replaceAll("\\..*", "");
  }

  private static String tag(String xml, String name) {
    int from = xml.indexOf("<" + name + ">") + name.length() + 2;
    return xml.substring(from, xml.indexOf("</" + name + ">"))
        .replaceAll("</?\\w+>", "")
        .replace("&lt;", "<")
        .replace("&gt;", ">");
  }
}
