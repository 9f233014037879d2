<?xml version="1.0" encoding="UTF-8"?>
<!-- plan.xsl - an example: the order of work as a page for a browser
     SPDX-License-Identifier: GPL-3.0-or-later

     handwheel plan FILE format=xml | xsltproc plan.xsl -   (with two dashes before “format”) -->
<xsl:stylesheet version="1.0" xmlns:xsl="http://www.w3.org/1999/XSL/Transform" xmlns:o="urn:handwheel:output:1"
                exclude-result-prefixes="o">
  <xsl:output method="html" encoding="UTF-8"/>

  <xsl:template match="/o:plan">
    <html>
      <head><title><xsl:value-of select="@title"/></title></head>
      <body>
        <h1><xsl:value-of select="@title"/></h1>
        <p>
          <xsl:value-of select="count(o:step)"/> steps,
          <xsl:value-of select="format-number(sum(o:step/@minutes), '0')"/> minutes of work and
          <xsl:value-of select="format-number(@change-minutes, '0')"/> of changing.
        </p>
        <table>
          <tr><th>Set-up</th><th>Step</th><th>Needle</th><th>Thread</th><th>Dial</th><th>Minutes</th></tr>
          <xsl:apply-templates select="o:step"/>
        </table>
      </body>
    </html>
  </xsl:template>

  <xsl:template match="o:step">
    <tr>
      <td><xsl:value-of select="@setup"/></td>
      <td><xsl:value-of select="@number"/><xsl:text> </xsl:text><xsl:value-of select="@name"/></td>
      <td><xsl:value-of select="@needle-nm"/></td>
      <td><xsl:value-of select="@needle-thread"/></td>
      <td><xsl:value-of select="@dial"/></td>
      <td><xsl:value-of select="format-number(@minutes, '0')"/></td>
    </tr>
  </xsl:template>
</xsl:stylesheet>
