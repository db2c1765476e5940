package dev.cupwarden.host.app.wire;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Database;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.util.ArrayList;
import java.util.List;

/** What lies in a host's database, read past the host. */
record Stored(Database database) {
  private Connection connect() throws Exception {
    return database.user().isPresent()
        ? DriverManager.getConnection(
            database.jdbcUrl(), database.user().get(), database.password().orElse(""))
        : DriverManager.getConnection(database.jdbcUrl());
  }

  /** Kind and number of each event of a bench, in the order of their numbers in the journal. */
  List<String> events(String bench) throws Exception {
    List<String> found = new ArrayList<>();
    try (Connection connection = connect();
        PreparedStatement asked =
            connection.prepareStatement(
                "SELECT kind, data FROM events WHERE bench = ? ORDER BY epoch, seq")) {
      asked.setString(1, bench);
      try (ResultSet rows = asked.executeQuery()) {
        while (rows.next()) {
          found.add(rows.getString(1) + " " + number(Json.MAPPER.readTree(rows.getString(2))));
        }
      }
    }
    return found;
  }

  private static String number(JsonNode data) {
    if (data.has("plain_ml")) {
      return Integer.toString(data.get("plain_ml").asInt());
    }
    return data.has("threshold")
        ? Integer.toString(data.get("threshold").asInt())
        : data.path("detail").asText().replace("no. ", "");
  }

  long readings(String bench) throws Exception {
    try (Connection connection = connect();
        PreparedStatement asked =
            connection.prepareStatement(
                "SELECT count(*) FROM readings JOIN series ON series.id = readings.series"
                    + " WHERE series.bench = ?")) {
      asked.setString(1, bench);
      try (ResultSet row = asked.executeQuery()) {
        row.next();
        return row.getLong(1);
      }
    }
  }
}
