package dev.cupwarden.host.web;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.PrivateFiles;
import java.io.IOException;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.util.ssl.SslContextFactory;

/** HTTPS by a certificate of the person's own. */
final class TlsConnector {
  private TlsConnector() {}

  static Connector of(
      Server server, HttpConfiguration plain, String host, int port, Exposure.Tls tls) {
    SslContextFactory.Server ssl = new SslContextFactory.Server();
    ssl.setKeyStoreType("PKCS12");
    ssl.setKeyStorePath(tls.keyStore().toAbsolutePath().toString());
    ssl.setKeyStorePassword(passwordIn(tls));
    ssl.setIncludeProtocols("TLSv1.3", "TLSv1.2");
    HttpConfiguration http = new HttpConfiguration(plain);
    // A certificate is often made for another name than the one a home network has for a machine.
    http.addCustomizer(new SecureRequestCustomizer(false));
    ServerConnector connector =
        new ServerConnector(
            server, new SslConnectionFactory(ssl, "http/1.1"), new HttpConnectionFactory(http));
    connector.setHost(host);
    connector.setPort(port);
    return connector;
  }

  private static String passwordIn(Exposure.Tls tls) {
    try {
      return PrivateFiles.secretIn(tls.passwordFile()).lines().findFirst().orElse("").strip();
    } catch (IOException unreadable) {
      throw new HostException("The file " + tls.passwordFile() + " cannot be read.", unreadable);
    }
  }
}
