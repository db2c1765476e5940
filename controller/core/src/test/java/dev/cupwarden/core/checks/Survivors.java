package dev.cupwarden.core.checks;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Compares what a mutation run left alive with the list of those that were read: one that is not in
 * the list fails, and so does an entry that is alive no more. The list is written by hand only.
 */
public final class Survivors {
  private static final Pattern MUTATION =
      Pattern.compile("<mutation detected='(true|false)' status='([A-Z_]+)'.*?</mutation>");

  private Survivors() {}

  /**
   * @param args the run's {@code mutations.xml} and the list of those that were read
   */
  public static void main(String[] args) throws IOException {
    Set<String> alive = new TreeSet<>();
    Map<String, int[]> scores = new TreeMap<>();
    Matcher mutations = MUTATION.matcher(Files.readString(Path.of(args[0])));
    while (mutations.find()) {
      String xml = mutations.group();
      boolean killed = mutations.group(1).equals("true");
      String type = tag(xml, "mutatedClass").replace("dev.cupwarden.core.", "");
      int[] score = scores.computeIfAbsent(type.replaceAll("\\..*", ""), room -> new int[2]);
      score[0] += killed ? 1 : 0;
      score[1]++;
      if (!killed) {
        String mutator = tag(xml, "mutator").replaceAll(".*\\.", "");
        String at = type + "." + tag(xml, "mutatedMethod") + " ";
        alive.add(at + mutator + " " + tag(xml, "index"));
      }
    }
    scores.forEach(
        (room, score) ->
            System.out.printf(
                Locale.ROOT,
                "mutations of %s: %d of %d killed, %.1f %%%n",
                room,
                score[0],
                score[1],
                100.0 * score[0] / score[1]));
    Set<String> read = new TreeSet<>();
    for (String line : Files.readAllLines(Path.of(args[1]))) {
      if (!line.isBlank() && !line.startsWith("#")) {
        read.add(line.strip());
      }
    }
    Set<String> fresh = new TreeSet<>(alive);
    fresh.removeAll(read);
    Set<String> stale = new TreeSet<>(read);
    stale.removeAll(alive);
    fresh.forEach(one -> System.out.println("alive, and not in the list: " + one));
    stale.forEach(one -> System.out.println("in the list, and no longer alive: " + one));
    if (!fresh.isEmpty() || !stale.isEmpty()) {
      throw new IllegalStateException(
          fresh.size() + " survivors not in " + args[1] + ", " + stale.size() + " stale entries");
    }
  }

  private static String tag(String xml, String name) {
    int from = xml.indexOf("<" + name + ">") + name.length() + 2;
    return xml.substring(from, xml.indexOf("</" + name + ">"))
        .replaceAll("</?\\w+>", "")
        .replace("&lt;", "<")
        .replace("&gt;", ">");
  }
}
