package dev.cupwarden.core.checks;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
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
 * prints their count when the tests of a module have ended.
 */
public final class OutsideReport implements TestExecutionListener {
  private final Map<String, Line> lines = new ConcurrentHashMap<>();
  private volatile TestPlan plan;

  private record Line(boolean passed, String source, String test) {
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
        .ifPresent(
            method ->
                sourceOf(method)
                    .ifPresent(
                        source ->
                            lines.put(
                                test.getUniqueId(),
                                new Line(
                                    result.getStatus() == TestExecutionResult.Status.SUCCESSFUL,
                                    source,
                                    nameOf(test, method)))));
  }

  @Override
  public void testPlanExecutionFinished(TestPlan ended) {
    if (lines.isEmpty()) {
      return;
    }
    Path report = Path.of(System.getProperty("basedir", "."), "target", "outside-checks.txt");
    long passed = lines.values().stream().filter(Line::passed).count();
    long sources = lines.values().stream().map(Line::source).distinct().count();
    String count =
        "outside checks: %d passed, %d failed, %d sources"
            .formatted(passed, lines.size() - passed, sources);
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

  private static Optional<String> sourceOf(MethodSource method) {
    Method java = method.getJavaMethod();
    Outside own = java.getAnnotation(Outside.class);
    Outside held = own != null ? own : method.getJavaClass().getAnnotation(Outside.class);
    return Optional.ofNullable(held).map(Outside::source);
  }

  /** The class and method; for a row of a table also the row. */
  private String nameOf(TestIdentifier test, MethodSource method) {
    String name = method.getJavaClass().getSimpleName() + "." + method.getMethodName();
    boolean row =
        plan.getParent(test)
            .flatMap(TestIdentifier::getSource)
            .map(source -> !(source instanceof ClassSource))
            .orElse(false);
    return row ? name + " " + test.getDisplayName() : name;
  }
}
