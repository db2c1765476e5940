package dev.cupwarden.host.broker;

import com.hivemq.extension.sdk.api.ExtensionMain;
import com.hivemq.extension.sdk.api.auth.SimpleAuthenticator;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthInput;
import com.hivemq.extension.sdk.api.auth.parameter.SimpleAuthOutput;
import com.hivemq.extension.sdk.api.packets.connect.ConnackReasonCode;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStartOutput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopInput;
import com.hivemq.extension.sdk.api.parameter.ExtensionStopOutput;
import com.hivemq.extension.sdk.api.services.Services;
import java.net.InetAddress;

/** Lets in whoever connects from this machine, and nobody else. */
final class LoopbackAccess implements ExtensionMain, SimpleAuthenticator {
  @Override
  public void extensionStart(ExtensionStartInput input, ExtensionStartOutput output) {
    Services.securityRegistry().setAuthenticatorProvider(asked -> this);
  }

  @Override
  public void extensionStop(ExtensionStopInput input, ExtensionStopOutput output) {}

  @Override
  public void onConnect(SimpleAuthInput input, SimpleAuthOutput output) {
    boolean here =
        input
            .getConnectionInformation()
            .getInetAddress()
            .map(InetAddress::isLoopbackAddress)
            .orElse(false);
    if (here) {
      output.authenticateSuccessfully();
    } else {
      output.failAuthentication(ConnackReasonCode.NOT_AUTHORIZED, "loopback only");
    }
  }
}
