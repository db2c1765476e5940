package dev.cupwarden.host.app.attack;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;

/** Attacks that go on side by side until they are ended, and what each was told. */
final class Attacks implements AutoCloseable {
  private static final int MOST_KINDS = 40;
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final CountDownLatch ended = new CountDownLatch(1);
  private final Map<String, Map<String, Integer>> told = new ConcurrentSkipListMap<>();
  private final List<Throwable> failures = new CopyOnWriteArrayList<>();

  /** One try of an attack; what it was told. */
  @FunctionalInterface
  interface Attack {
    String once(int number) throws Exception;
  }

  /** Goes on with an attack, with a pause after each try. */
  void go(String name, int side, Duration pause, Attack attack) {
    for (int each = 0; each < side; each++) {
      int first = each;
      threads.execute(
          () -> {
            try {
              for (int number = first; !ended.await(0, TimeUnit.SECONDS); number += side) {
                note(name, attack.once(number));
                if (ended.await(pause.toMillis(), TimeUnit.MILLISECONDS)) {
                  return;
                }
              }
            } catch (InterruptedException stopped) {
              note(name, "stopped");
            } catch (Exception | Error unforeseen) {
              failures.add(new IllegalStateException(name, unforeseen));
            }
          });
    }
  }

  void note(String name, String answer) {
    Map<String, Integer> answers = told.computeIfAbsent(name, key -> new ConcurrentSkipListMap<>());
    String timeless = answer.replaceAll("[0-9-]{10}T[0-9:.]+Z", "TIME");
    String shown = timeless.length() > 120 ? timeless.substring(0, 120) + "…" : timeless;
    answers.merge(answers.size() < MOST_KINDS ? shown : "another", 1, Integer::sum);
  }

  int count(String name, String answer) {
    return told.getOrDefault(name, Map.of()).entrySet().stream()
        .filter(each -> each.getKey().contains(answer))
        .mapToInt(Map.Entry::getValue)
        .sum();
  }

  /** What did not go as an attack or its victim should. */
  List<Throwable> failures() {
    return failures;
  }

  /** Lines for a report: attack, what it was told, how often. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    told.forEach(
        (name, answers) ->
            answers.forEach(
                (answer, times) ->
                    lines.add(
                        "| " + name + " | " + answer.replace("|", "/") + " | " + times + " |")));
    return lines;
  }

  @Override
  public void close() throws InterruptedException {
    ended.countDown();
    threads.shutdown();
    if (!threads.awaitTermination(30, TimeUnit.SECONDS)) {
      threads.shutdownNow();
    }
  }
}
