package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Advice.Pass;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Receipt;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * For a person with a can: what to do in sentences, each cup's amount whole, to 5 mL. What carries
 * feed is mixed once for all, at the weakest strength that any of these cups is to get: none gets
 * more than it may.
 */
final class AdviceText implements AdviceWriter {
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu, HH:mm", Locale.ENGLISH);

  /** What a syringe or a measuring cup shows. */
  private static final int STEP_ML = 5;

  private static final double NO_FEED = 1e-9;

  private final ZoneId zone;

  /**
   * @param zone of the times that it tells
   */
  AdviceText(ZoneId zone) {
    this.zone = zone;
  }

  /**
   * All that a cup gets.
   *
   * @param passes in how many passes
   * @param feedPart of what is in its feed's tank, 0 to 1
   */
  private record Portion(String cup, int passes, double ml, double feedPart) {
    static Portion of(String cup, List<Pass> passes) {
      double feedMl = passes.stream().mapToDouble(Pass::feedMl).sum();
      double ml = feedMl + passes.stream().mapToDouble(Pass::plainMl).sum();
      return new Portion(cup, passes.size(), ml, ml > 0 ? feedMl / ml : 0);
    }

    boolean isFed() {
      return feedPart > NO_FEED;
    }

    int roundMl() {
      return AdviceText.roundMl(ml);
    }

    String line() {
      String often =
          passes > 1
              ? ", in %d passes of about %d mL so that each soaks in"
                  .formatted(passes, Math.round(ml / passes))
              : "";
      return "  %s: %d mL %s%s%n"
          .formatted(cup, roundMl(), isFed() ? "of the mix" : "of water", often);
    }
  }

  private static int roundMl(double ml) {
    return (int) Math.max(STEP_ML, STEP_ML * Math.round(ml / STEP_ML));
  }

  @Override
  public String answer(Advice advice, List<String> notes) {
    StringBuilder text = new StringBuilder();
    text.append(WHEN.format(advice.at().atZone(zone))).append(System.lineSeparator());
    notes.forEach(note -> text.append("  You noted: %s%n".formatted(note)));
    advice.receipts().stream()
        .map(AdviceText::line)
        .flatMap(Optional::stream)
        .forEach(text::append);
    advice.alerts().stream().map(AdviceText::line).forEach(text::append);
    water(advice.passes()).forEach(text::append);
    return text.toString();
  }

  private static Stream<String> water(List<Pass> passes) {
    List<Portion> portions = portions(passes);
    if (portions.isEmpty()) {
      return Stream.of("  Nothing to water.%n".formatted());
    }
    return Stream.concat(
        mix(portions).stream(),
        Stream.concat(
            portions.stream().map(Portion::line),
            Stream.of(
                "  In all: %d mL.%n"
                    .formatted(portions.stream().mapToInt(Portion::roundMl).sum()))));
  }

  private static List<Portion> portions(List<Pass> passes) {
    Map<String, List<Pass>> byCup = new LinkedHashMap<>();
    passes.forEach(pass -> byCup.computeIfAbsent(pass.cup(), cup -> new ArrayList<>()).add(pass));
    return byCup.entrySet().stream()
        .map(each -> Portion.of(each.getKey(), each.getValue()))
        .toList();
  }

  private static Optional<String> mix(List<Portion> portions) {
    List<Portion> fed = portions.stream().filter(Portion::isFed).toList();
    if (fed.isEmpty()) {
      return Optional.empty();
    }
    int ml = fed.stream().mapToInt(Portion::roundMl).sum();
    double part = fed.stream().mapToDouble(Portion::feedPart).min().orElseThrow();
    long feedMl = Math.round(part * ml);
    return Optional.of(
        "  Mix first: %d mL from the feed's tank and %d mL of water.%n"
            .formatted(feedMl, ml - feedMl));
  }

  private static String line(AlertNotice notice) {
    String whose =
        notice.cups().isEmpty()
            ? Stream.of(notice.cup(), notice.tank())
                .filter(Objects::nonNull)
                .findFirst()
                .map(name -> name + ": ")
                .orElse("")
            : String.join(", ", notice.cups()) + ": ";
    return notice.state().equals("cleared")
        ? "  %sover: %s%n".formatted(whose, notice.code())
        : "  %s%s%n".formatted(whose, notice.whatToDo());
  }

  private static Optional<String> line(Receipt receipt) {
    return Optional.ofNullable(receipt.why())
        .map(why -> "  Your order (%s): %s%n".formatted(receipt.outcome(), why));
  }

  @Override
  public String error(long line, String sentence) {
    return "Line %d %s%n".formatted(line, sentence);
  }
}
