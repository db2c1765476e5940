package dev.cupwarden.host.store;

import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Tells a row that no database would take from a database that is away, locked or full. */
public final class ContentFault {
  private static final String DATA_EXCEPTION = "22";
  private static final String CONSTRAINT_VIOLATION = "23";
  private static final int PRIMARY_CODE = 0xff;

  private ContentFault() {}

  /** True if trying the same again later is of no use. */
  public static boolean isIn(Throwable thrown) {
    for (Throwable each = thrown; each != null; each = each.getCause()) {
      if (each instanceof SQLiteException sqlite) {
        return ofContent(sqlite.getResultCode());
      }
      if (each instanceof SQLException sql) {
        String state = String.valueOf(sql.getSQLState());
        return state.startsWith(DATA_EXCEPTION) || state.startsWith(CONSTRAINT_VIOLATION);
      }
    }
    return true; // No database has spoken: the fault is in what was to be written.
  }

  private static boolean ofContent(SQLiteErrorCode code) {
    int primary = code.code & PRIMARY_CODE;
    return primary == SQLiteErrorCode.SQLITE_CONSTRAINT.code
        || primary == SQLiteErrorCode.SQLITE_MISMATCH.code
        || primary == SQLiteErrorCode.SQLITE_TOOBIG.code;
  }
}
