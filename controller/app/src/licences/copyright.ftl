Cupwarden
Copyright 2026 the authors of Cupwarden
Licensed under the Apache License, version 2.0. Its text: META-INF/LICENSE in the jar,
/usr/share/common-licenses/Apache-2.0 on Debian.

The program's jar holds these libraries, each under its own licence (where several are named, under
any of them). What a library says of itself lies in the jar below META-INF/third-party, in a folder
named after its artifact and version.

<#list dependencyMap as entry>
<#assign library = entry.getKey()/>
<#if library.groupId != "dev.cupwarden">
${library.groupId}:${library.artifactId}:${library.version}
  ${entry.getValue()?join(" or ")}
<#if library.artifactId == "jdbi3-core">
  with org.antlr:antlr4-runtime inside: BSD-3-Clause
</#if>
<#if library.artifactId == "angus-mail">
  with org.eclipse.angus:angus-core, org.eclipse.angus:imap, org.eclipse.angus:pop3, org.eclipse.angus:smtp
  and org.eclipse.angus:logging-mailhandler inside: as itself
</#if>
<#if library.url??>  ${library.url}
</#if>
</#if>
</#list>
