package dev.cupwarden.host;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.apache.commons.compress.compressors.xz.XZCompressorInputStream;
import org.apache.commons.io.FileUtils;

/**
 * A PostgreSQL of its own, from the published binaries, on a free port of loopback. It refuses to
 * run as root, and a chroot or a container gives root no user namespace to hide in: there it runs
 * as nobody.
 */
public final class PostgresqlServer implements AutoCloseable {
  private static final Map<String, String> ARCHIVES =
      Map.of(
          "amd64", "/postgres-linux-x86_64.txz",
          "aarch64", "/postgres-linux-arm_64.txz");

  /** Debian's user without rights. */
  private static final int NOBODY = 65_534;

  private static final Duration LIMIT = Duration.ofSeconds(30);
  private static Path programs;

  private final Path folder;
  private final int port;
  private Process process;

  private PostgresqlServer(Path folder, int port) {
    this.folder = folder;
    this.port = port;
  }

  /** With an empty database named postgres. */
  public static PostgresqlServer start() throws IOException, InterruptedException {
    Path folder = open(Files.createTempDirectory("cupwarden-postgresql"));
    int port = LoopbackPort.anyFree("the database", "--database").number();
    PostgresqlServer server = new PostgresqlServer(folder, port);
    Path tables = Files.createDirectory(server.tables());
    if (asRoot()) {
      Files.setAttribute(tables, "unix:uid", NOBODY);
    }
    Process made =
        server.begin("initdb", "-A", "trust", "-U", "postgres", "-E", "UTF-8", "--no-locale");
    if (made.waitFor() != 0) {
      throw new IOException(server.log());
    }
    server.run();
    return server;
  }

  /** Starts it again after {@link #stop}, with what it held. */
  public void run() throws IOException, InterruptedException {
    process =
        begin(
            "postgres",
            "-p",
            Integer.toString(port),
            "-c",
            "listen_addresses=" + LoopbackPort.HOST,
            "-c",
            "unix_socket_directories=",
            "-c",
            "max_connections=300");
    await("the server answers")
        .pollInterval(Duration.ofMillis(20))
        .atMost(LIMIT)
        .failFast(() -> assertTrue(process.isAlive(), log()))
        .until(this::answers);
  }

  private Process begin(String program, String... options) throws IOException {
    List<String> words = new ArrayList<>();
    if (asRoot()) {
      words.addAll(
          List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups", "--"));
    }
    words.add(programs().resolve("bin").resolve(program).toString());
    words.addAll(List.of("-D", tables().toString()));
    words.addAll(List.of(options));
    return new ProcessBuilder(words)
        .directory(folder.toFile())
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.appendTo(folder.resolve("log").toFile()))
        .start();
  }

  private boolean answers() {
    try (Connection connection = connect("postgres")) {
      return connection.isValid(1);
    } catch (SQLException notYet) {
      return false;
    }
  }

  private Connection connect(String name) throws SQLException {
    return DriverManager.getConnection(
        "jdbc:postgresql://" + LoopbackPort.HOST + ":" + port + "/" + name, "postgres", "");
  }

  private Path tables() {
    return folder.resolve("tables");
  }

  private String log() throws IOException {
    return Files.readString(folder.resolve("log"));
  }

  private String url(String name) {
    return "postgresql://postgres@" + LoopbackPort.HOST + ":" + port + "/" + name;
  }

  /** The database that is there from the start, as the host's option takes it. */
  public String url() {
    return url("postgres");
  }

  /** The same, as the store takes it. */
  public Database database() {
    return Database.at(url(), Optional.of("none"));
  }

  /** Another, empty database. */
  public Database create(String name) throws SQLException {
    try (Connection connection = connect("postgres");
        var statement = connection.createStatement()) {
      statement.execute("CREATE DATABASE " + name);
    }
    return Database.at(url(name), Optional.of("none"));
  }

  public int port() {
    return port;
  }

  /** The process whose children serve. */
  public long pid() {
    return process.pid();
  }

  /** As at a shutdown of its machine: whoever is connected is cut off. */
  public void stop() throws IOException, InterruptedException {
    begin("pg_ctl", "stop", "-m", "fast", "-w").waitFor();
    process.waitFor();
  }

  @Override
  public void close() throws IOException, InterruptedException {
    if (process.isAlive()) {
      stop();
    }
    FileUtils.deleteDirectory(folder.toFile());
  }

  private static boolean asRoot() throws IOException {
    return Files.getAttribute(Path.of("/proc/self"), "unix:uid").equals(0);
  }

  private static Path open(Path folder) throws IOException {
    return Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
  }

  /** Unpacked once for each run of tests, where user nobody may read it. */
  private static synchronized Path programs() throws IOException {
    if (programs == null) {
      String archive = ARCHIVES.get(System.getProperty("os.arch"));
      Path folder = open(Files.createTempDirectory("cupwarden-postgresql"));
      try (InputStream packed = PostgresqlServer.class.getResourceAsStream(archive);
          TarArchiveInputStream files =
              new TarArchiveInputStream(new XZCompressorInputStream(packed))) {
        for (TarArchiveEntry entry = files.getNextEntry();
            entry != null;
            entry = files.getNextEntry()) {
          unpack(entry, files, folder.resolve(entry.getName()));
        }
      }
      FileUtils.forceDeleteOnExit(folder.toFile());
      programs = folder;
    }
    return programs;
  }

  private static void unpack(TarArchiveEntry entry, InputStream content, Path to)
      throws IOException {
    if (entry.isDirectory()) {
      open(Files.createDirectories(to));
      return;
    }
    Files.createDirectories(to.getParent());
    if (entry.isSymbolicLink()) {
      Files.createSymbolicLink(to, Path.of(entry.getLinkName()));
    } else {
      Files.copy(content, to);
      open(to);
    }
  }
}
