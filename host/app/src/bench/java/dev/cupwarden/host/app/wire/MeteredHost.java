package dev.cupwarden.host.app.wire;

import dev.cupwarden.host.broker.LoopbackPort;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A host with its own broker in another process, run as its package does, and what it uses. */
final class MeteredHost implements AutoCloseable {
  private static final Pattern PAGE = Pattern.compile("The page is at (\\S+?)/?,");
  private static final double MIB = 1_048_576;
  private final HttpClient http = HttpClient.newHttpClient();
  private final HostProcess process;
  private final String broker;
  private final URI metrics;

  private MeteredHost(HostProcess process, String broker) throws IOException {
    this.process = process;
    this.broker = broker;
    Matcher page = PAGE.matcher(process.said());
    if (!page.find()) {
      throw new IOException(process.said());
    }
    metrics = URI.create(page.group(1) + "/metrics");
  }

  static MeteredHost start(Path data, String... options) throws Exception {
    int port = LoopbackPort.anyFree("the broker", "--broker-port").number();
    List<String> all = new ArrayList<>(List.of("--broker-port", Integer.toString(port)));
    all.addAll(List.of(options));
    HostProcess process =
        HostProcess.run(
            PackagedJava.OWN_BROKER.options(), Map.of(), data, all.toArray(new String[0]));
    return new MeteredHost(process, "tcp://127.0.0.1:" + port);
  }

  String broker() {
    return broker;
  }

  long readingsStored() throws Exception {
    return (long) metric("cupwarden_readings_stored", "");
  }

  double residentMib() throws IOException {
    return process.residentMib()[0];
  }

  /** What is left of the heap once it has been cleared. */
  double heapAfterGcMib() throws Exception {
    Process jcmd =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "jcmd").toString(),
                Long.toString(process.pid()),
                "GC.run")
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectErrorStream(true)
            .start();
    if (jcmd.waitFor() != 0) {
      throw new IOException("jcmd could not reach the host");
    }
    return metric("jvm_memory_used_bytes", "area=\"heap\"") / MIB;
  }

  /** Processor time since its start. */
  double cpuS() {
    return ProcessorTime.of(process.pid());
  }

  /** Sum of a metric's samples that have a label. */
  private double metric(String name, String label) throws Exception {
    String all =
        http.send(HttpRequest.newBuilder(metrics).build(), HttpResponse.BodyHandlers.ofString())
            .body();
    return all.lines()
        .filter(line -> line.startsWith(name) && line.contains(label))
        .mapToDouble(line -> Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
        .sum();
  }

  @Override
  public void close() throws Exception {
    process.close();
  }
}
