package dev.cupwarden.host.web;

import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.review.DryDownAnswer;
import dev.cupwarden.host.review.DryDownPicture;
import dev.cupwarden.host.review.StoredDryDowns;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.List;

/** A cup's dry-downs, cut and fitted by the core: as JSON for the page, and as a picture. */
final class DryDownRoutes {

  private final Store store;

  DryDownRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/cups/{cup}/dry-downs", this::told);
    routes.get("/api/benches/{bench}/cups/{cup}/dry-downs.svg", this::picture);
  }

  private void told(Context context) {
    String bench = RequestParameters.bench(context, store);
    String cup = context.pathParam("cup");
    boolean weighed = store.readings().newest(bench, cup + "/mass").isPresent();
    if (!weighed && !store.benches().hasCup(bench, cup)) {
      throw new ApiException(
          HttpStatus.NOT_FOUND, "There is no cup " + cup + " on bench " + bench + ".");
    }
    JsonResponse.json(
        context, DryDownAnswer.of(StoredDryDowns.in(store, RequestParameters.span(context), cup)));
  }

  private void picture(Context context) {
    String cup = context.pathParam("cup");
    try {
      List<DryDown> dryDowns = StoredDryDowns.of(store, RequestParameters.span(context), cup);
      context.contentType("image/svg+xml").result(DryDownPicture.of("Cup " + cup, dryDowns));
    } catch (HostException none) {
      throw new ApiException(HttpStatus.NOT_FOUND, none.getMessage());
    }
  }
}
