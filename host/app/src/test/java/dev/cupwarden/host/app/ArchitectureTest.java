package dev.cupwarden.host.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What Maven's modules cannot say of who may know whom. */
class ArchitectureTest {
  private static final JavaClasses ALL =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(place -> !place.contains("-tests.jar"))
          .importPackages("dev.cupwarden");

  /** Rooms of the core that the host may use. */
  private static final List<String> SHARED =
      List.of(
          "units", "setup", "substrate", "climate", "feeding", "messages", "alerts", "argument");

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
  void boardAndSimulatorShareNothingButTheCore() {
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.board..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("dev.cupwarden.simulator..")
        .check(ALL);
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.simulator..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("dev.cupwarden.board..")
        .check(ALL);
  }

  @Test
  void hostServiceUsesOnlyTheSharedRooms() {
    DescribedPredicate<JavaClass> notShared =
        DescribedPredicate.describe(
            "a room of the core that is not shared",
            type ->
                type.getPackageName().startsWith("dev.cupwarden.core")
                    && SHARED.stream()
                        .noneMatch(
                            room ->
                                type.getPackageName().startsWith("dev.cupwarden.core." + room)));
    noClasses()
        .that()
        .resideInAPackage("dev.cupwarden.host..")
        .and()
        .resideOutsideOfPackage("dev.cupwarden.host.app..")
        .should()
        .dependOnClassesThat(notShared)
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

  @Test
  void onlyTheBoardSpeaksToPins() {
    noClasses()
        .that()
        .resideOutsideOfPackages(
            "dev.cupwarden.board..", "dev.cupwarden.simulator..", "dev.cupwarden.app..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("com.pi4j..")
        .check(ALL);
  }
}
