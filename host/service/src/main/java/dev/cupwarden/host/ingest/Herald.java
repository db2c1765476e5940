package dev.cupwarden.host.ingest;

import dev.cupwarden.core.messages.AlertNotice;
import org.jdbi.v3.core.Handle;

/**
 * Takes note, in the same transaction, of an alert whose state has changed or that is told again.
 */
@FunctionalInterface
public interface Herald {
  /**
   * @param before the state before, {@code cleared} where there was none
   */
  void alert(Handle handle, String bench, String before, AlertNotice notice);
}
