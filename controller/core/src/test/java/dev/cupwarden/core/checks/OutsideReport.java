package dev.cupwarden.core.checks;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.junit.platform.engine.TestExecutionResult;
import org.junit.platform.engine.support.descriptor.ClassSource;
import org.junit.platform.engine.support.descriptor.MethodSource;
import org.junit.platform.launcher.TestExecutionListener;
import org.junit.platform.launcher.TestIdentifier;
import org.junit.platform.launcher.TestPlan;

/**
 * Writes {@code target/outside-checks.txt}, one line a check with result, source and test, and
 * prints their count when the tests of a module have ended. Rows that show one fact are one check,
 * which passes if all do; checks whose source was not looked up are counted apart.
 */
public final class OutsideReport implements TestExecutionListener {
  private final Map<String, Line> lines = new ConcurrentHashMap<>();
  private volatile TestPlan plan;

  private record Line(boolean passed, String source, String test) {
    Line and(Line other) {
      return new Line(passed && other.passed, source, test);
    }

    boolean fromMemory() {
      return source.contains("from memory");
    }

    String text() {
      return (passed ? "pass" : "FAIL") + " | " + source + " | " + test;
    }
  }

  @Override
  public void testPlanExecutionStarted(TestPlan started) {
    plan = started;
  }

  @Override
  public void executionFinished(TestIdentifier test, TestExecutionResult result) {
    if (!test.isTest()) {
      return;
    }
    test.getSource()
        .filter(MethodSource.class::isInstance)
        .map(MethodSource.class::cast)
        .ifPresent(method -> checkOf(method).ifPresent(check -> note(test, method, check, result)));
  }

  private void note(
      TestIdentifier test, MethodSource method, Outside check, TestExecutionResult result) {
    boolean passed = result.getStatus() == TestExecutionResult.Status.SUCCESSFUL;
    String name = check.oneFact() ? plainNameOf(method) : nameOf(test, method);
    String key = check.oneFact() ? name : test.getUniqueId();
    lines.merge(key, new Line(passed, check.source(), name), Line::and);
  }

  @Override
  public void testPlanExecutionFinished(TestPlan ended) {
    if (lines.isEmpty()) {
      return;
    }
    Path report = Path.of(System.getProperty("basedir", "."), "target", "outside-checks.txt");
    long passed = lines.values().stream().filter(Line::passed).count();
    long sources = lines.values().stream().map(Line::source).distinct().count();
    long memory =
        lines.values().stream().filter(line -> line.passed() && line.fromMemory()).count();
    String count =
        "outside checks: %d passed, %d of them from memory, %d failed, %d sources"
            .formatted(passed, memory, lines.size() - passed, sources);
    try {
      Files.createDirectories(report.getParent());
      Files.writeString(
          report,
          lines.values().stream().map(Line::text).sorted().collect(Collectors.joining("\n"))
              + "\n"
              + count
              + "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    System.out.println(count + " (" + report + ")");
  }

  private static Optional<Outside> checkOf(MethodSource method) {
    Outside own = method.getJavaMethod().getAnnotation(Outside.class);
    return Optional.ofNullable(
        own != null ? own : method.getJavaClass().getAnnotation(Outside.class));
  }

  private static String plainNameOf(MethodSource method) {
    return method.getJavaClass().getSimpleName() + "." + method.getMethodName();
  }

  /** The class and method; for a row of a table also the row. */
  private String nameOf(TestIdentifier test, MethodSource method) {
    String name = plainNameOf(method);
    boolean row =
        plan.getParent(test)
            .flatMap(TestIdentifier::getSource)
            .map(source -> !(source instanceof ClassSource))
            .orElse(false);
    return row ? name + " " + test.getDisplayName() : name;
  }
}
