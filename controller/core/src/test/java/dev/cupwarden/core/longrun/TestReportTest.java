package dev.cupwarden.core.longrun;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class TestReportTest {
  @Test
  void aSectionTakesThePlaceOfTheOneOfItsName() {
    String page = TestReport.with("", "Power cuts", "before");
    page = TestReport.with(page, "Fuzzing: orders", "| a | table |");
    String again = TestReport.with(page, "Power cuts", "after");
    assertEquals(page.replace("before", "after"), again);
    assertFalse(again.contains("before"));
    assertEquals(1, again.split("## How a seed is played again", -1).length - 1, again);
    assertTrue(again.indexOf("### Fuzzing") < again.indexOf("### Power cuts"));
  }
}
