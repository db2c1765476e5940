/**
 * Quantities as the grower writes them ("110 mm", "1 US gal"), exact factors to the base unit of
 * their dimension, and how they are written back. No knowledge of benches, cups or files lives
 * here.
 *
 * <p>Inside the program a quantity is a double in one unit, and its name ends in that unit. This is
 * the one table of the endings; a name of a double with a dimension ends in one of them:
 *
 * <pre>
 * SUFFIX              UNIT                OF
 * G                   g                   mass
 * Mg                  mg                  mass of a nutrient
 * GPerH               g/h                 rate of loss
 * GPerL               g/L                 strength by mass
 * GPerMl              g/mL                density
 * GPerMol             g/mol               molar mass
 * MgPerL              mg/L                concentration of a nutrient
 * Ml                  mL                  volume
 * L                   L                   volume
 * MlPerS              mL/s                flow
 * MlPerH              mL/h                flow
 * Mm                  mm                  length
 * Cm                  cm                  length, suction head
 * M                   m                   length, height
 * Mm2                 mm2                 area
 * Cm2                 cm2                 area
 * M2                  m2                  area
 * PerCm               1/cm                van Genuchten's alpha
 * C                   degree Celsius      temperature
 * GPerC               g/degree Celsius    temperature coefficient of a scale
 * Pct                 percent             humidity, analysis of a feed
 * Kpa                 kPa                 vapour pressure
 * MsPerCm             mS/cm               conductivity
 * MsPerCmPerGPerL     mS/cm per g/L       conductivity that a feed adds
 * UmolPerM2S          umol m-2 s-1        photon flux
 * MolPerM2            mol m-2             light sum
 * CmPerH              cm/h                conductance
 * GPerHPerM2          g h-1 m-2           loss of leaves
 * GPerPct             g/percent           a damp scale
 * MPerS               m/s                 wind
 * MgPerG              mg/g                content of a feed
 * MgPerMl             mg/mL               concentration of a nutrient
 * MlPerD              mL/d                use
 * MlPerHPerCm2PerKpa  mL h-1 cm-2 kPa-1   transpiration
 * MmPerD              mm/d                evapotranspiration
 * MmPerH              mm/h                conductance
 * MmPerHPerKpa        mm h-1 kPa-1        evaporation
 * PctPerMsPerCm       percent per mS/cm   yield lost to salt
 * SPerM               s/m                 resistance to vapour
 * WPerM2              W m-2               radiation
 * Deg                 degree              latitude, longitude
 * Rad                 radian              angle
 * Ms                  ms                  time
 * S                   s                   time
 * Min                 min                 time
 * H                   h                   time
 * D                   d                   time
 * Counts              counts              raw reading of a converter
 * CountsPerG          counts/g            calibration of a scale
 * V                   V                   voltage
 * Hz                  Hz                  frequency
 * </pre>
 *
 * Volume fractions, depletions, strengths and label-equivalents are pure numbers and carry no
 * ending.
 */
package dev.cupwarden.core.units;
