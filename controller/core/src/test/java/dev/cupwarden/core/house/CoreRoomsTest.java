package dev.cupwarden.core.house;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.Test;

/** The core is pure, and its rooms know one another one way only. */
class CoreRoomsTest {
  private static final JavaClasses ALL =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("dev.cupwarden.core");

  @Test
  void coreIsPure() {
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.core..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.net..", "java.nio.file..", "java.sql..", "java.util.concurrent..", "org.slf4j..")
        .orShould()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.lang.Thread")
        .orShould()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.io.File")
        .orShould()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.time.Clock")
        .orShould()
        .dependOnClassesThat()
        .haveFullyQualifiedName("java.util.Random")
        .orShould()
        .callMethod(java.time.Instant.class, "now")
        .orShould()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .check(ALL);
  }

  @Test
  void roomsOfTheCoreKnowOneAnotherOneWayOnly() {
    slices().matching("dev.cupwarden.core.(*)..").should().beFreeOfCycles().check(ALL);
  }

  @Test
  void noRoomKnowsTheTickNorTheWholeState() {
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.core..")
        .and()
        .resideOutsideOfPackages("dev.cupwarden.core.tick..", "dev.cupwarden.core.state..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("dev.cupwarden.core.tick..", "dev.cupwarden.core.state..")
        .check(ALL);
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.core.state..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("dev.cupwarden.core.tick..")
        .check(ALL);
  }

  @Test
  void proposersDoNotAskLimitsAndLimitsDoNotAskProposers() {
    noClasses()
        .that()
        .resideInAnyPackage(
            "dev.cupwarden.core.watering..",
            "dev.cupwarden.core.feeding..",
            "dev.cupwarden.core.dosing..",
            "dev.cupwarden.core.estimate..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("dev.cupwarden.core.limits..")
        .check(ALL);
  }
}
