package dev.cupwarden.app;

import dev.cupwarden.simulator.rehearsal.AlertCount;
import dev.cupwarden.simulator.rehearsal.Figures;
import dev.cupwarden.simulator.rehearsal.RehearsalReport;
import java.util.Locale;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;

/** A report as a table for the eye: a line a figure, a column a policy. */
final class RehearsalTable {
  private static final int NAME_WIDTH = 34;
  private static final int WIDTH = 13;

  private final RehearsalReport report;
  private final StringBuilder text = new StringBuilder();

  private RehearsalTable(RehearsalReport report) {
    this.report = report;
  }

  static String of(RehearsalReport report) {
    return new RehearsalTable(report).write();
  }

  private String write() {
    int seeds = report.policies().get(0).seeds().size();
    text.append(
        String.format(
            Locale.ROOT,
            "%d cups, %d days, %d %s, faults %s%n",
            report.cups(),
            report.days(),
            seeds,
            seeds == 1 ? "seed" : "seeds",
            report.faults()));
    text.append(" ".repeat(NAME_WIDTH));
    report.policies().forEach(policy -> cell(policy.policy()));
    text.append(String.format("%n%-" + NAME_WIDTH + "s", "world"));
    report.policies().forEach(policy -> cell(policy.world()));
    line("hours in band, %", each -> number(100 * each.inBand(), 2));
    line("hours past the wet line", each -> number(each.wetHours(), 1));
    line("  of each cup and week", each -> number(each.wetHoursPerCupWeek(), 3));
    line("hours past the dry line", each -> number(each.dryHours(), 1));
    line("cups lost, of " + report.cups() * seeds, each -> "" + each.lost());
    line("  rotted", each -> "" + each.lostRotted());
    line("  dried", each -> "" + each.lostDried());
    line("cups with toughened roots", each -> "" + each.toughened());
    line("water given, L", each -> number(each.waterMl() / 1000, 2));
    line("runoff, L", each -> number(each.runoffMl() / 1000, 2));
    line("leaching fraction", each -> number(each.leachingFraction(), 4));
    line("N given, mg", each -> number(each.nMg(), 0));
    line("  still in the mix at the end", each -> number(each.heldNMg(), 0));
    line("  to struck and white cups", each -> number(each.unfedNMg(), 1));
    line("N that the label allows, mg", each -> number(each.labelNMg(), 0));
    line("EC at the end, mS/cm", each -> number(each.ecMsPerCm(), 2));
    line("  of the saltiest cup", each -> number(each.highestEcMsPerCm(), 2));
    line("passes", each -> "" + each.passes());
    line("limits broken", each -> "" + each.violations());
    line("fed before toughened", each -> "" + each.fedTooEarly());
    line("leaf a cup, cm2", each -> number(each.leafCm2() / each.cups(), 0));
    alerts();
    return text.toString();
  }

  private void alerts() {
    SortedSet<String> codes = new TreeSet<>();
    report.policies().forEach(policy -> codes.addAll(policy.total().alerts().keySet()));
    if (!codes.isEmpty()) {
      text.append(String.format("%nalerts: raised, of them false; conditions, of them missed"));
    }
    for (String code : codes) {
      line("  " + code, each -> told(each.alerts().get(code)));
    }
  }

  private static String told(AlertCount count) {
    if (count == null) {
      return "-";
    }
    return count.raised()
        + " "
        + count.falseOnes()
        + "; "
        + count.conditions()
        + " "
        + count.missed();
  }

  private void line(String name, Function<Figures, String> figure) {
    text.append(String.format("%n%-" + NAME_WIDTH + "s", name));
    report.policies().forEach(policy -> cell(figure.apply(policy.total())));
  }

  private void cell(String value) {
    text.append(String.format("%" + WIDTH + "s", value));
  }

  private static String number(double value, int decimals) {
    return String.format(Locale.ROOT, "%,." + decimals + "f", value);
  }
}
