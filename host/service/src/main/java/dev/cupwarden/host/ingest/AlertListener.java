package dev.cupwarden.host.ingest;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;
import org.jdbi.v3.core.Handle;

/**
 * Takes note, in the same transaction, of an alert whose state has changed or that is told again.
 */
@FunctionalInterface
public interface AlertListener {
  /**
   * @param before the state before, {@code cleared} where there was none
   */
  void alert(Handle handle, String bench, String before, AlertNotice notice);

  /**
   * The same while the store takes nothing: it is told from memory.
   *
   * @param at when the alert turned so, or was told again; once for each
   */
  default void unstored(String bench, AlertNotice notice, Instant at) {}
}
