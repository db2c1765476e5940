package dev.cupwarden.host.web;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.orders.OrderService;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.users.SignIn;
import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import io.javalin.http.staticfiles.Location;
import io.javalin.http.staticfiles.StaticFileConfig;
import io.javalin.util.JavalinBindException;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.eclipse.jetty.io.EofException;
import org.eclipse.jetty.util.resource.ResourceFactory;
import org.eclipse.jetty.util.resource.URLResourceFactory;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The HTTP server, on loopback unless it is told to be open to others. */
public final class WebServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebServer.class);

  /** Where the page's files lie; without its last slash a folder in a jar is not taken for one. */
  public static final String PAGE = "/dev/cupwarden/host/page/";

  private static final long MOST_REQUEST_BYTES = 65_536;
  private static final long STOP_LIMIT_MS = 2_000;

  private final LoopbackPort port;
  private final Optional<Exposure> exposure;
  private final HealthRoutes.HostCondition condition;
  private final LiveFeed feed = new LiveFeed();
  private final Javalin server;

  private WebServer(
      LoopbackPort port,
      Optional<Exposure> exposure,
      Store store,
      OrderService orders,
      InstantSource clock,
      HealthRoutes.HostCondition condition) {
    this.port = port;
    this.exposure = exposure;
    this.condition = condition;
    // Otherwise each folder of the page is a file system of its own over the whole program, several
    // times: 12 MB of heap each.
    ResourceFactory.registerResourceFactory("jar", new URLResourceFactory());
    server =
        Javalin.create(
            config -> {
              settings(config, port, exposure);
              config.staticFiles.add(WebServer::page);
              config.staticFiles.add(WebServer::signIn);
              routes(config.routes, store, orders, clock);
            });
  }

  /**
   * One that does not answer yet; its feed takes what happens already.
   *
   * @throws HostException if the port is taken, or others could reach a page that has no user
   */
  public static WebServer of(
      LoopbackPort port,
      Optional<Exposure> exposure,
      Store store,
      OrderService orders,
      InstantSource clock,
      HealthRoutes.HostCondition condition) {
    port.requireFree();
    if (exposure.isPresent() && store.users().all().isEmpty()) {
      throw new HostException(
          "--listen: other machines would reach the page and there is no user yet; make one with"
              + " the command user add.");
    }
    return new WebServer(port, exposure, store, orders, clock, condition);
  }

  /**
   * Returns once it answers. What it asks must be there by then.
   *
   * @throws HostException if the port is taken
   */
  public WebServer answer() {
    try {
      server.start();
      return this;
    } catch (JavalinBindException taken) {
      throw port.taken(taken);
    }
  }

  private static void settings(
      JavalinConfig config, LoopbackPort port, Optional<Exposure> exposure) {
    config.startup.showJavalinBanner = false;
    config.startup.startupWatcherEnabled = false;
    config.startup.showOldJavalinVersionWarning = false;
    Optional<Exposure.Tls> tls = exposure.flatMap(Exposure::tls);
    String host = exposure.map(Exposure::address).orElse(LoopbackPort.HOST);
    if (tls.isPresent()) {
      config.jetty.addConnector(
          (server, http) -> TlsConnector.of(server, http, host, port.number(), tls.get()));
    } else {
      config.jetty.host = host;
      config.jetty.port = port.number();
    }
    config.jetty.modifyServer(server -> server.setStopTimeout(STOP_LIMIT_MS));
    config.jetty.modifyHttpConfiguration(http -> http.setSendServerVersion(false));
    config.http.maxRequestSize = MOST_REQUEST_BYTES;
    config.http.prefer405over404 = true;
  }

  private static void page(StaticFileConfig files) {
    files.hostedPath = "/";
    files.directory = PAGE;
    files.location = Location.CLASSPATH;
    files.headers = Map.of();
  }

  private static void signIn(StaticFileConfig files) {
    page(files);
    files.hostedPath = "/sign-in";
    files.directory = "/dev/cupwarden/host/sign-in/";
  }

  private void routes(RoutesConfig routes, Store store, OrderService orders, InstantSource clock) {
    routes.before(context -> RequestOriginCheck.check(context, exposure.isPresent()));
    new SessionAuth(new SignIn(store, InstantSource.system()), exposure).add(routes);
    new ChartFiles().add(routes);
    new BenchRoutes(store).add(routes);
    new SetupRoutes(store).add(routes);
    new TankRoutes(store).add(routes);
    new DayRoutes(store).add(routes);
    new NoteRoutes(store, clock).add(routes);
    new DecisionRoutes(store).add(routes);
    new OrderRoutes(store, orders).add(routes);
    new AlertRoutes(store, clock).add(routes);
    new ExportRoutes(store).add(routes);
    new DryDownRoutes(store).add(routes);
    new HealthRoutes(store, condition).add(routes);
    new ApiDocument().add(routes);
    routes.sse("/api/live", feed::connect);
    routes.exception(
        ApiException.class,
        (refused, context) -> JsonResponse.error(context, refused.status(), refused.getMessage()));
    routes.exception(HttpResponseException.class, WebServer::httpError);
    routes.exception(
        EofException.class,
        (cut, context) ->
            JsonResponse.error(
                context, HttpStatus.BAD_REQUEST, "The request's body is cut short or broken."));
    routes.exception(
        JdbiException.class,
        (refused, context) -> {
          LOG.warn(
              "{} {}: the store did not answer: {}", context.method(), context.path(), refused);
          JsonResponse.error(
              context,
              HttpStatus.SERVICE_UNAVAILABLE,
              "The host's store does not take or give anything now; nothing was changed. The log says"
                  + " why.");
        });
    routes.exception(
        Exception.class,
        (unforeseen, context) -> {
          LOG.atError()
              .addKeyValue("method", context.method().name())
              .addKeyValue("path", context.path())
              .setCause(unforeseen)
              .log("{} {} failed", context.method(), context.path());
          JsonResponse.error(
              context,
              HttpStatus.INTERNAL_SERVER_ERROR,
              "The host could not answer; its log says why.");
        });
    routes.error(HttpStatus.NOT_FOUND, WebServer::notFound);
  }

  private static void httpError(HttpResponseException error, Context context) {
    HttpStatus status = HttpStatus.forStatus(error.getStatus());
    String sentence =
        switch (status) {
          case CONTENT_TOO_LARGE -> "A request has " + MOST_REQUEST_BYTES + " bytes at most.";
          case NOT_FOUND -> nothingAt(context);
          case METHOD_NOT_ALLOWED -> context.method() + " does nothing at " + context.path() + ".";
          default -> error.getMessage() + ".";
        };
    JsonResponse.error(context, status, sentence);
  }

  private static void notFound(Context context) {
    String answered = context.res().getContentType();
    if (answered == null || !answered.startsWith("application/json")) {
      JsonResponse.error(context, HttpStatus.NOT_FOUND, nothingAt(context));
    }
  }

  private static String nothingAt(Context context) {
    return "There is nothing at " + context.path() + ".";
  }

  /** Every method and path that is answered, such as {@code GET /api/benches}. */
  List<String> routes() {
    return server.unsafe.internalRouter.allHttpHandlers().stream()
        .map(each -> each.endpoint)
        .filter(each -> each.method.isHttpMethod())
        .map(each -> each.method.name() + " " + each.path)
        .toList();
  }

  /** What to show to whoever is looking. */
  public Consumer<LiveEvent> feed() {
    return feed;
  }

  /** Where the page is: {@code http://127.0.0.1:port/}. */
  public String address() {
    String scheme = exposure.flatMap(Exposure::tls).isPresent() ? "https" : "http";
    String host = exposure.map(Exposure::address).orElse(LoopbackPort.HOST);
    return scheme
        + "://"
        + (host.contains(":") ? "[" + host + "]" : host)
        + ":"
        + port.number()
        + "/";
  }

  @Override
  public void close() {
    feed.close();
    server.stop();
  }
}
