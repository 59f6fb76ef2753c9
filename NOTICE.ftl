<#-- META-INF/NOTICE of the runnable jar: NOTICE, then every artifact that license-maven-plugin finds for it. -->
<#include "NOTICE" parse=false>

Artifacts
---------
Each with its version, and its licence as its POM says or, of typefaces, as said above.

<#list dependencyMap as artifact>
<#assign p = artifact.getKey()>
<#if p.groupId != "rakelight">
${p.groupId}:${p.artifactId}:${p.version}  ${artifact.getValue()?join(" or ")}
</#if>
</#list>
