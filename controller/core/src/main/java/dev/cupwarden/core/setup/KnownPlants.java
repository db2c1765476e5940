package dev.cupwarden.core.setup;

import dev.cupwarden.core.plants.PlantTable;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;

/** The table of plants that comes with the program, {@code plants.yaml}, read once. */
public final class KnownPlants {
  private static final String FILE = "plants.yaml";

  private KnownPlants() {}

  /** Read when it is first asked for. */
  private static final class Read {
    static final PlantTable TABLE = read();
  }

  /** The table. */
  public static PlantTable table() {
    return Read.TABLE;
  }

  private static PlantTable read() {
    try (InputStream in = PlantTable.class.getResourceAsStream(FILE)) {
      String yaml = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return PlantKeys.plants(Optional.of(YamlText.read(FILE, yaml)), PlantTable.EMPTY);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    } catch (SetupException wrong) {
      throw new IllegalStateException(wrong.getMessage(), wrong);
    }
  }
}
