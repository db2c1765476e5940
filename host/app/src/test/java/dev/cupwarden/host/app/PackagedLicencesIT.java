package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.cupwarden.core.house.SourceTree;
import java.io.BufferedInputStream;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.jar.JarFile;
import java.util.jar.Manifest;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipFile;
import org.apache.commons.compress.archivers.ar.ArArchiveInputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is handed on says which version it is, and under which licence each part of it stands. */
class PackagedLicencesIT {
  private static final String LIST = "META-INF/THIRD-PARTY";
  private static final Pattern LIBRARY = Pattern.compile("META-INF/maven/([^/]+)/([^/]+)/pom.xml");
  private static final Pattern LISTED =
      Pattern.compile("^([\\w.-]+):([\\w.-]+):(\\S+)$", Pattern.MULTILINE);

  /** At the top of a jar, or of its META-INF, a licence or notice speaks for the whole. */
  private static final Pattern SPEAKS_FOR_ALL =
      Pattern.compile(
          "(META-INF/)?([^/]*(licen[sc]e|notice|copying|readme|about)[^/]*|A?L?GPL[^/]*|AL2.*|EPL.*)",
          Pattern.CASE_INSENSITIVE);

  @ParameterizedTest
  @ValueSource(strings = {"controller", "host"})
  void theJarsOwnLicenceIsOurs(String program) throws IOException {
    try (ZipFile jar = new ZipFile(jar(program).toFile())) {
      List<String> forAll =
          jar.stream()
              .map(entry -> entry.getName())
              .filter(name -> SPEAKS_FOR_ALL.matcher(name).matches())
              .toList();
      assertEquals(List.of("META-INF/LICENSE"), forAll);
      assertEquals(
          SourceTree.text(SourceTree.ROOT.resolve("LICENSE")), text(jar, "META-INF/LICENSE"));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"controller", "host"})
  void eachLibraryIsListedWithItsLicence(String program) throws IOException {
    try (ZipFile jar = new ZipFile(jar(program).toFile())) {
      String list = text(jar, LIST);
      List<String> unlisted =
          jar.stream()
              .map(entry -> LIBRARY.matcher(entry.getName()))
              .filter(Matcher::matches)
              .filter(library -> !library.group(1).equals("dev.cupwarden"))
              .map(library -> library.group(1) + ":" + library.group(2))
              .filter(
                  name ->
                      !Pattern.compile("\\b" + Pattern.quote(name) + "\\b").matcher(list).find())
              .toList();
      assertEquals(List.of(), unlisted);
      assertFalse(list.toLowerCase(Locale.ROOT).contains("unknown"), list);
      Matcher listed = LISTED.matcher(list);
      int count = 0;
      while (listed.find()) {
        count++;
        String next = list.substring(listed.end()).lines().skip(1).findFirst().orElse("");
        assertTrue(next.matches(" {2}\\S.*"), listed.group() + " names no licence");
      }
      assertTrue(count > 20, "only " + count + " libraries");
    }
  }

  /** Of those that bring a text along; where a library brings none the list names its licence. */
  @ParameterizedTest
  @ValueSource(strings = {"controller", "host"})
  void whatALibrarySaysOfItselfTravelsWithIt(String program) throws IOException {
    try (ZipFile jar = new ZipFile(jar(program).toFile())) {
      for (String library : List.of("jackson-core", "sqlite-jdbc", "jna", "hipparchus")) {
        assertTrue(
            jar.stream()
                .anyMatch(
                    entry ->
                        entry.getName().startsWith("META-INF/third-party/" + library)
                            && !entry.isDirectory()),
            library);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"controller", "host"})
  void thePackageCarriesTheSameList(String program) throws IOException {
    Path deb = built(program, "deb");
    assumeTrue(Files.exists(deb), "a quick build makes no package");
    try (ZipFile jar = new ZipFile(jar(program).toFile())) {
      assertEquals(
          text(jar, LIST), inPackage(deb, "usr/share/doc/cupwarden-" + program + "/copyright"));
    }
  }

  /** A tag's or the count of commits, never Maven's; and what changed for a grower goes along. */
  @ParameterizedTest
  @ValueSource(strings = {"controller", "host"})
  void itsVersionIsARealOneAndItsChangesTravelWithIt(String program) throws IOException {
    try (ZipFile jar = new ZipFile(jar(program).toFile())) {
      Manifest manifest = new Manifest(jar.getInputStream(jar.getEntry(JarFile.MANIFEST_NAME)));
      String version = manifest.getMainAttributes().getValue("Implementation-Version");
      assertTrue(version.matches("[0-9]+(\\.[0-9]+)+"), version);
    }
    Path deb = built(program, "deb");
    assumeTrue(Files.exists(deb), "a quick build makes no package");
    byte[] packed = bytesInPackage(deb, "usr/share/doc/cupwarden-" + program + "/changelog.gz");
    try (InputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      assertEquals(
          SourceTree.text(SourceTree.ROOT.resolve(program + "/app/src/deb/changelog")),
          new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
  }

  private static Path jar(String program) {
    return built(program, "jar");
  }

  private static Path built(String program, String ending) {
    return SourceTree.ROOT.resolve(program + "/app/target/cupwarden-" + program + "." + ending);
  }

  private static String text(ZipFile jar, String name) throws IOException {
    try (InputStream in = jar.getInputStream(jar.getEntry(name))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** A file of a Debian package: an ar archive, in which data.tar.gz holds what gets installed. */
  private static String inPackage(Path deb, String wanted) throws IOException {
    return new String(bytesInPackage(deb, wanted), StandardCharsets.UTF_8);
  }

  private static byte[] bytesInPackage(Path deb, String wanted) throws IOException {
    try (ArArchiveInputStream parts =
        new ArArchiveInputStream(new BufferedInputStream(Files.newInputStream(deb)))) {
      for (var part = parts.getNextEntry(); part != null; part = parts.getNextEntry()) {
        if (part.getName().startsWith("data.tar")) {
          TarArchiveInputStream files = new TarArchiveInputStream(new GZIPInputStream(parts));
          for (var file = files.getNextEntry(); file != null; file = files.getNextEntry()) {
            if (file.getName().replaceFirst("^\\./|^/", "").equals(wanted)) {
              return files.readAllBytes();
            }
          }
        }
      }
    }
    throw new AssertionError(wanted + " is not in " + deb.getFileName());
  }
}
