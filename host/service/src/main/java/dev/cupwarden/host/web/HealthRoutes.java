package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.Counts;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.StoreWatch;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.binder.jvm.JvmMemoryMetrics;
import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.util.function.ToDoubleFunction;

/** Is it alive, is it ready, does its store take what comes, and figures for a monitor. */
public final class HealthRoutes {

  private final HostCondition condition;
  private final PrometheusMeterRegistry registry =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);

  /** How the parts of the host are, asked anew each time. */
  public interface HostCondition {
    boolean isConnected();

    /** How the store is, as it was last looked at. */
    StoreWatch.State store();

    /** Whether it takes what it is given, now. */
    boolean storeTakes();

    int backlog();

    Counts counts();
  }

  HealthRoutes(Store store, HostCondition condition) {
    this.condition = condition;
    counter("cupwarden.messages.received", "messages", counts -> counts.messages());
    counter("cupwarden.readings.stored", "readings", counts -> counts.readings());
    counter("cupwarden.messages.malformed", "messages", counts -> counts.malformed());
    counter("cupwarden.events.repeated", "events", counts -> counts.doubles());
    counter("cupwarden.events.passed.over", "events", counts -> counts.passedOver());
    gauge("cupwarden.ingest.backlog", "messages", HostCondition::backlog);
    gauge("cupwarden.store.takes", "bool", each -> each.storeTakes() ? 1 : 0);
    gauge("cupwarden.broker.connected", "bool", each -> each.isConnected() ? 1 : 0);
    gauge("cupwarden.notices.waiting", "notices", each -> store.notices().waiting());
    new JvmMemoryMetrics().bindTo(registry);
  }

  private void counter(String name, String unit, ToDoubleFunction<Counts> value) {
    FunctionCounter.builder(name, condition, each -> value.applyAsDouble(each.counts()))
        .baseUnit(unit)
        .register(registry);
  }

  private void gauge(String name, String unit, ToDoubleFunction<HostCondition> value) {
    Gauge.builder(name, condition, value).baseUnit(unit).register(registry);
  }

  void add(RoutesConfig routes) {
    routes.get("/health/live", context -> JsonResponse.json(context, status("up")));
    routes.get("/health/ready", this::ready);
    routes.get("/metrics", this::metrics);
    routes.get("/api/host", context -> JsonResponse.json(context, condition.store()));
  }

  private static ObjectNode status(String word) {
    return Json.MAPPER.createObjectNode().put("status", word);
  }

  private void ready(Context context) {
    boolean stores = condition.storeTakes();
    boolean hears = condition.isConnected();
    if (!stores || !hears) {
      context.status(HttpStatus.SERVICE_UNAVAILABLE);
    }
    JsonResponse.json(
        context,
        status(stores && hears ? "ready" : "not ready").put("store", stores).put("broker", hears));
  }

  private void metrics(Context context) {
    context.contentType("text/plain; version=0.0.4; charset=utf-8").result(registry.scrape());
  }
}
