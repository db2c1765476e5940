package dev.cupwarden.host.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Who may know whom among the modules, where Maven cannot say it; the core's own rooms: {@code
 * CoreRoomsTest}.
 */
class ArchitectureTest {
  private static final JavaClasses ALL =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .withImportOption(place -> !place.contains("-tests.jar"))
          .importPackages("dev.cupwarden");

  /** Rooms of the core that the host may use. */
  private static final List<String> SHARED =
      List.of(
          "units",
          "setup",
          "substrate",
          "climate",
          "feeding",
          "messages",
          "orders",
          "alerts",
          "argument");

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
