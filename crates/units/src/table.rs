//! The unit table: every unit that is read or printed, once, with its exact size.
//!
//! Sizes follow the international yard and pound agreement of 1959 (yard 0.9144 m, pound
//! 0.453 592 37 kg, both exact), the US gallon of 231 cubic inches and the imperial gallon of
//! 4.546 09 l (NIST Handbook 44, Appendix C), and standard gravity 9.806 65 m/s2 (NIST SP 811,
//! Appendix B). Units of mass over area or volume that practice writes for a pressure carry
//! standard gravity in their factor and say so.
//!
//! US practice writes `k` and `kip` for a force of 1000 lbf, never for a mass, and writes `lb` in
//! moments and pressures for a force; so `psf`, `lb-ft` and `lb/in` are forces over area, times
//! length and over length here, while `lb`, `lb/ft` and `lb/ft3` are masses.

use crate::{Dimension, Factor, Kind, System, Unit};

const fn whole(num: u128) -> Factor {
    Factor::whole(num)
}
const fn one_over(den: u128) -> Factor {
    Factor::new(1, den)
}

const GRAVITY: Factor = Factor::new(980_665, 100_000);
const POUND: Factor = Factor::new(45_359_237, 100_000_000);
const SHORT_TON: Factor = whole(2_000).times(POUND);
const LONG_TON: Factor = whole(2_240).times(POUND);
const LBF: Factor = POUND.times(GRAVITY);
const KIP: Factor = whole(1_000).times(LBF);
const INCH: Factor = Factor::new(254, 10_000);
const FOOT: Factor = whole(12).times(INCH);
const YARD: Factor = whole(3).times(FOOT);
const MILE: Factor = whole(1_760).times(YARD);
const INCH_2: Factor = INCH.times(INCH);
const INCH_3: Factor = INCH_2.times(INCH);
const INCH_4: Factor = INCH_3.times(INCH);
const FOOT_2: Factor = FOOT.times(FOOT);
const FOOT_3: Factor = FOOT_2.times(FOOT);
const US_GALLON: Factor = whole(231).times(INCH_3);
const IMPERIAL_GALLON: Factor = Factor::new(454_609, 100_000_000);
const MINUTE: Factor = whole(60);
const HOUR: Factor = whole(3_600);

// One row a unit: symbol, other spellings, name, dimension, kinds, exact factor, system, help.
macro_rules! units {
    ($($symbol:literal [$($alias:literal)*] $name:literal, $dimension:ident [$($kind:ident)+] $factor:expr $(, offset $offset:expr)?; $system:ident $help:literal)*) => {
        &[ONE_ROW, RISE_ROW, $(Unit {
            symbol: $symbol,
            aliases: &[$($alias),*],
            name: $name,
            help: $help,
            dimension: Dimension::$dimension,
            kinds: &[$(Kind::$kind),+],
            factor: $factor,
            offset: units!(@offset $($offset)?),
            system: System::$system,
        }),*]
    };
    (@offset) => { Factor::ZERO };
    (@offset $offset:expr) => { $offset };
}

pub(crate) const ONE_ROW: Unit = Unit {
    symbol: "",
    aliases: &[],
    name: "one",
    help: "A number without a unit.",
    dimension: Dimension::NONE,
    kinds: &[Kind::Number, Kind::Ratio],
    factor: Factor::ONE,
    offset: Factor::ZERO,
    system: System::Both,
};

pub(crate) const RISE_ROW: Unit = Unit {
    symbol: "1:n",
    aliases: &[],
    name: "rise over run",
    help: "A slope written as rise to run, as 1:50.",
    dimension: Dimension::NONE,
    kinds: &[Kind::Slope],
    factor: Factor::ONE,
    offset: Factor::ZERO,
    system: System::Both,
};

/// Every unit, the most usual of each kind first; [`crate::ONE`] and [`crate::RISE`] stand in front.
#[rustfmt::skip]
pub static UNITS: &[Unit] = units! {
    // Mass; every one of them may also state a rating.
    "t" ["tonne" "tonnes" "te"] "tonne", MASS [Mass Rating] whole(1_000); Metric "1000 kg. Always the tonne, in every locale."
    "kg" ["kgs" "kilogram" "kilograms"] "kilogram", MASS [Mass Rating] Factor::ONE; Metric "The SI unit of mass. A reading in kg is a mass, not a force."
    "lb" ["lbs" "pound" "pounds"] "pound", MASS [Mass Rating] POUND; Us "0.45359237 kg, exact. The pound as a mass; lbf is the force."
    "oz_av" [] "avoirdupois ounce", MASS [Mass] POUND.over(whole(16)); Us "1/16 lb, 28.349523125 g."
    "g" ["gram" "grams"] "gram", MASS [Mass] one_over(1_000); Metric "0.001 kg. An acceleration in g is written gn."
    "short_ton" ["short_tons" "short-ton" "short-tons" "shtn"] "short ton", MASS [Mass Rating] SHORT_TON; Us "2000 lb, 907.18474 kg: the ton of the United States."
    "long_ton" ["long_tons" "long-ton" "long-tons"] "long ton", MASS [Mass Rating] LONG_TON; Us "2240 lb, 1016.0469088 kg: the ton of the old British measures and of ships."
    "short_cwt" [] "short hundredweight", MASS [Mass Rating] whole(100).times(POUND); Us "100 lb, 45.359237 kg."
    "long_cwt" [] "long hundredweight", MASS [Mass Rating] whole(112).times(POUND); Us "112 lb, 50.80234544 kg."
    // Force.
    "kN" [] "kilonewton", FORCE [Force Rating] whole(1_000); Metric "1000 N; standard gravity makes it the weight of 101.97 kg."
    "N" [] "newton", FORCE [Force Rating] Factor::ONE; Metric "The SI unit of force."
    "daN" [] "decanewton", FORCE [Force Rating] whole(10); Metric "10 N, about the weight of a kilogram; as lashings are marked."
    "MN" [] "meganewton", FORCE [Force Rating] whole(1_000_000); Metric "1000 kN."
    "kip" ["kips" "k"] "kip", FORCE [Force Rating] KIP; Us "1000 lbf. A force: US practice never means a mass by it. Also written k."
    "lbf" ["lbsf"] "pound-force", FORCE [Force Rating] LBF; Us "4.4482216152605 N, exact: the weight of one pound under standard gravity."
    "kgf" ["kp"] "kilogram-force", FORCE [Force Rating] GRAVITY; Metric "9.80665 N: the weight of one kilogram under standard gravity."
    "tf" ["tonne-force"] "tonne-force", FORCE [Force Rating] whole(1_000).times(GRAVITY); Metric "9.80665 kN: the weight of one tonne under standard gravity."
    "short_tonf" [] "short ton-force", FORCE [Force Rating] whole(2_000).times(LBF); Us "2000 lbf."
    "long_tonf" [] "long ton-force", FORCE [Force Rating] whole(2_240).times(LBF); Us "2240 lbf."
    // Length.
    "m" ["metre" "metres" "meter" "meters"] "metre", LENGTH [Length] Factor::ONE; Metric "The SI unit of length."
    "mm" [] "millimetre", LENGTH [Length] one_over(1_000); Metric "0.001 m."
    "cm" [] "centimetre", LENGTH [Length] one_over(100); Metric "0.01 m."
    "km" [] "kilometre", LENGTH [Length] whole(1_000); Metric "1000 m."
    "ft" ["'" "′" "feet" "foot"] "foot", LENGTH [Length] FOOT; Us "0.3048 m, exact. Also the mark ' directly after the number: 12'-6 1/2\"."
    "in" ["\"" "″" "inch" "inches"] "inch", LENGTH [Length] INCH; Us "25.4 mm, exact. Also the mark \" directly after the number."
    "yd" ["yard" "yards"] "yard", LENGTH [Length] YARD; Us "0.9144 m, exact."
    "mi" ["mile" "miles"] "mile", LENGTH [Length] MILE; Us "1609.344 m, exact: the statute mile."
    // Angle and slope.
    "deg" ["°" "degree" "degrees"] "degree", ANGLE [Angle HorizontalAngle VerticalAngle ChokeAngle Heading Slope] one_over(180).pi(); Both "1/360 of a turn. Its datum is named: from horizontal, from vertical, or from +x."
    "rad" ["radian" "radians"] "radian", ANGLE [Angle HorizontalAngle VerticalAngle ChokeAngle Heading Slope] Factor::ONE; Both "The SI unit of plane angle; a full turn has 2 pi of them."
    "%" ["percent" "pct"] "per cent", NONE [Ratio Slope] one_over(100); Both "A hundredth: of what it tolerates, as a coefficient, or as rise over run of a slope."
    "mm/m" [] "millimetre per metre", NONE [Slope] one_over(1_000); Metric "Rise over run: 1 mm in 1 m is 0.1 %."
    "in/ft" [] "inch per foot", NONE [Slope] one_over(12); Us "Rise over run: 1 in in 1 ft is 1:12."
    // Pressure and stress.
    "kPa" ["kN/m2" "kN/m²" "kN/m^2"] "kilopascal", PRESSURE [Pressure] whole(1_000); Metric "1000 N/m2; 1 kN/m2 is the same."
    "MPa" ["N/mm2" "N/mm²" "N/mm^2" "MN/m2" "MN/m²"] "megapascal", PRESSURE [Pressure] whole(1_000_000); Metric "1000 kPa; 1 N/mm2 is the same."
    "kN/cm2" ["kN/cm²" "kN/cm^2"] "kilonewton per square centimetre", PRESSURE [Pressure] whole(10_000_000); Metric "10 MPa."
    "GPa" [] "gigapascal", PRESSURE [Pressure] whole(1_000_000_000); Metric "1000 MPa."
    "Pa" ["N/m2" "N/m²" "N/m^2"] "pascal", PRESSURE [Pressure] Factor::ONE; Metric "The SI unit of pressure: 1 N/m2."
    "bar" [] "bar", PRESSURE [Pressure] whole(100_000); Metric "100 kPa; as gauges of hydraulic jacks read."
    "psf" ["lb/ft2" "lb/ft²" "lb/ft^2" "lbf/ft2" "lbf/ft²"] "pound-force per square foot", PRESSURE [Pressure] LBF.over(FOOT_2); Us "47.88 Pa; 1 lbf on a square foot."
    "psi" ["lb/in2" "lb/in²" "lb/in^2" "lbf/in2" "lbf/in²"] "pound-force per square inch", PRESSURE [Pressure] LBF.over(INCH_2); Us "6.895 kPa; 1 lbf on a square inch."
    "ksf" ["kip/ft2" "kip/ft²" "kips/ft2"] "kip per square foot", PRESSURE [Pressure] KIP.over(FOOT_2); Us "47.88 kPa; 1000 psf."
    "ksi" ["kip/in2" "kip/in²" "kips/in2"] "kip per square inch", PRESSURE [Pressure] KIP.over(INCH_2); Us "6.895 MPa; 1000 psi."
    "tsf" ["short_tonf/ft2" "short_tonf/ft²"] "short ton-force per square foot", PRESSURE [Pressure] whole(2_000).times(LBF).over(FOOT_2); Us "95.76 kPa; 2000 lbf on a square foot, as US soil reports write it."
    "long_tonf/ft2" ["long_tonf/ft²"] "long ton-force per square foot", PRESSURE [Pressure] whole(2_240).times(LBF).over(FOOT_2); Us "107.25 kPa; 2240 lbf on a square foot, as old British drawings write it."
    "t/m2" ["t/m²" "t/m^2" "tf/m2" "tf/m²"] "tonne-force per square metre", PRESSURE [Pressure] whole(1_000).times(GRAVITY); Metric "9.80665 kPa: the weight of a tonne, by standard gravity, on a square metre."
    "kg/m2" ["kg/m²" "kg/m^2" "kgf/m2" "kgf/m²"] "kilogram-force per square metre", PRESSURE [Pressure] GRAVITY; Metric "9.80665 Pa: the weight of a kilogram, by standard gravity, on a square metre, as floor plates state it."
    "kg/cm2" ["kg/cm²" "kgf/cm2" "kgf/cm²"] "kilogram-force per square centimetre", PRESSURE [Pressure] whole(10_000).times(GRAVITY); Metric "98.0665 kPa: the weight of a kilogram, by standard gravity, on a square centimetre."
    // Density and mass per length.
    "kg/m3" ["kg/m³" "kg/m^3"] "kilogram per cubic metre", DENSITY [Density] Factor::ONE; Metric "The SI unit of density; fresh water has about 1000."
    "t/m3" ["t/m³" "t/m^3" "g/cm3" "g/cm³" "kg/l"] "tonne per cubic metre", DENSITY [Density] whole(1_000); Metric "1000 kg/m3; 1 kg/l and 1 g/cm3 are the same."
    "pcf" ["lb/ft3" "lb/ft³" "lb/ft^3"] "pound per cubic foot", DENSITY [Density] POUND.over(FOOT_3); Us "16.018 kg/m3; steel has about 490."
    "lb/in3" ["lb/in³" "lb/in^3"] "pound per cubic inch", DENSITY [Density] POUND.over(INCH_3); Us "27.68 t/m3; steel has about 0.28."
    "kg/m" [] "kilogram per metre", LINEAR_MASS [LinearMass] Factor::ONE; Metric "Mass of a metre of rope, rail or beam."
    "t/m" [] "tonne per metre", LINEAR_MASS [LinearMass] whole(1_000); Metric "1000 kg/m."
    "lb/ft" ["lbs/ft"] "pound per foot", LINEAR_MASS [LinearMass] POUND.over(FOOT); Us "1.488 kg/m; mass of a foot of rope, rail or beam. A load per foot is written plf."
    "lb/yd" ["lbs/yd"] "pound per yard", LINEAR_MASS [LinearMass] POUND.over(YARD); Us "0.496 kg/m; as crane rails are named."
    // Stiffness and load per length.
    "kN/m" [] "kilonewton per metre", FORCE_PER_LENGTH [Stiffness LineLoad] whole(1_000); Metric "A stiffness, or a load spread along a line."
    "kN/mm" [] "kilonewton per millimetre", FORCE_PER_LENGTH [Stiffness LineLoad] whole(1_000_000); Metric "1000 kN/m."
    "N/mm" [] "newton per millimetre", FORCE_PER_LENGTH [Stiffness LineLoad] whole(1_000); Metric "1 kN/m."
    "N/m" [] "newton per metre", FORCE_PER_LENGTH [Stiffness LineLoad] Factor::ONE; Metric "0.001 kN/m."
    "MN/m" [] "meganewton per metre", FORCE_PER_LENGTH [Stiffness LineLoad] whole(1_000_000); Metric "1000 kN/m."
    "kip/in" ["kips/in" "k/in"] "kip per inch", FORCE_PER_LENGTH [Stiffness LineLoad] KIP.over(INCH); Us "175.1 kN/m."
    "lbf/in" ["lb/in" "lbs/in"] "pound-force per inch", FORCE_PER_LENGTH [Stiffness LineLoad] LBF.over(INCH); Us "0.1751 kN/m; as spring rates are stated."
    "klf" ["kip/ft" "kips/ft" "k/ft"] "kip per foot", FORCE_PER_LENGTH [Stiffness LineLoad] KIP.over(FOOT); Us "14.59 kN/m."
    "plf" ["lbf/ft"] "pound-force per foot", FORCE_PER_LENGTH [Stiffness LineLoad] LBF.over(FOOT); Us "14.59 N/m. A mass per foot is written lb/ft."
    "tf/m" [] "tonne-force per metre", FORCE_PER_LENGTH [LineLoad] whole(1_000).times(GRAVITY); Metric "9.80665 kN/m. A mass per metre is written t/m."
    "kgf/m" [] "kilogram-force per metre", FORCE_PER_LENGTH [LineLoad] GRAVITY; Metric "9.80665 N/m. A mass per metre is written kg/m."
    "kN/m3" ["kN/m³" "kN/m^3" "kPa/m"] "kilonewton per cubic metre", PRESSURE_PER_LENGTH [SubgradeModulus] whole(1_000); Metric "Pressure over settlement: 1 kPa for each metre."
    "MN/m3" ["MN/m³" "MN/m^3" "MPa/m"] "meganewton per cubic metre", PRESSURE_PER_LENGTH [SubgradeModulus] whole(1_000_000); Metric "Pressure over settlement: 1 MPa for each metre, 1 kPa for each millimetre."
    "pci" ["psi/in" "lbf/in3" "lbf/in³"] "pound-force per cubic inch", PRESSURE_PER_LENGTH [SubgradeModulus] LBF.over(INCH_3); Us "271.4 kN/m3: pressure over settlement, 1 psi for each inch."
    // Moment and energy.
    "kN*m" ["kNm" "kN·m" "kN.m" "kN-m"] "kilonewton metre", MOMENT [Moment] whole(1_000); Metric "Force times lever arm."
    "N*m" ["Nm" "N·m" "N.m" "N-m"] "newton metre", MOMENT [Moment] Factor::ONE; Metric "Force times lever arm, as of a torque wrench."
    "MN*m" ["MNm" "MN·m"] "meganewton metre", MOMENT [Moment] whole(1_000_000); Metric "1000 kN*m."
    "t*m" ["tm" "t·m" "tf*m" "tfm"] "tonne-force metre", MOMENT [Moment] whole(1_000).times(GRAVITY); Metric "9.80665 kN*m: the weight of a tonne, by standard gravity, at one metre."
    "kip*ft" ["kip-ft" "kip·ft" "ft-kip" "ft*kip" "k-ft" "ft-k" "kips*ft" "kips-ft"] "kip foot", MOMENT [Moment Energy] KIP.times(FOOT); Us "1.356 kN*m."
    "kip*in" ["kip-in" "kip·in" "in-kip" "in*kip" "k-in" "in-k"] "kip inch", MOMENT [Moment] KIP.times(INCH); Us "0.113 kN*m."
    "lbf*ft" ["lbf-ft" "lbf·ft" "ft-lbf" "ft*lbf" "ft·lbf" "lb-ft" "ft-lb" "lb*ft" "ft*lb"] "pound-force foot", MOMENT [Moment Energy] LBF.times(FOOT); Us "1.356 N*m; a moment, or an energy where one is asked for."
    "lbf*in" ["lbf-in" "lbf·in" "in-lbf" "in*lbf" "lb-in" "in-lb" "lb*in" "in*lb"] "pound-force inch", MOMENT [Moment Energy] LBF.times(INCH); Us "0.113 N*m."
    "kJ" [] "kilojoule", MOMENT [Energy] whole(1_000); Metric "1000 J."
    "J" [] "joule", MOMENT [Energy] Factor::ONE; Metric "The SI unit of work and energy."
    // Power.
    "kW" [] "kilowatt", POWER [Power] whole(1_000); Metric "1000 W."
    "W" ["J/s"] "watt", POWER [Power] Factor::ONE; Metric "The SI unit of power."
    "MW" [] "megawatt", POWER [Power] whole(1_000_000); Metric "1000 kW."
    // Area, volume, sections.
    "m2" ["m²" "m^2" "sqm"] "square metre", AREA [Area] Factor::ONE; Metric "The SI unit of area."
    "mm2" ["mm²" "mm^2"] "square millimetre", AREA [Area] one_over(1_000_000); Metric "As of steel and rope sections."
    "cm2" ["cm²" "cm^2"] "square centimetre", AREA [Area] one_over(10_000); Metric "100 mm2; as of ram areas."
    "ft2" ["ft²" "ft^2" "sqft"] "square foot", AREA [Area] FOOT_2; Us "0.09290304 m2, exact."
    "in2" ["in²" "in^2" "sqin"] "square inch", AREA [Area] INCH_2; Us "645.16 mm2, exact; as of ram areas."
    "m3" ["m³" "m^3"] "cubic metre", VOLUME [Volume SectionModulus] Factor::ONE; Metric "The SI unit of volume."
    "l" ["L" "litre" "litres" "liter" "liters"] "litre", VOLUME [Volume] one_over(1_000); Metric "0.001 m3."
    "mm3" ["mm³" "mm^3"] "cubic millimetre", VOLUME [Volume SectionModulus] one_over(1_000_000_000); Metric "As of small section moduli."
    "cm3" ["cm³" "cm^3"] "cubic centimetre", VOLUME [Volume SectionModulus] one_over(1_000_000); Metric "1000 mm3; as section tables print moduli."
    "ft3" ["ft³" "ft^3" "cuft"] "cubic foot", VOLUME [Volume SectionModulus] FOOT_3; Us "0.028316846592 m3, exact."
    "in3" ["in³" "in^3"] "cubic inch", VOLUME [Volume SectionModulus] INCH_3; Us "16.387064 cm3, exact; as section tables print moduli."
    "yd3" ["yd³" "yd^3"] "cubic yard", VOLUME [Volume] whole(27).times(FOOT_3); Us "0.764554857984 m3, exact."
    "us_fl_oz" [] "US fluid ounce", VOLUME [Volume] US_GALLON.over(whole(128)); Us "1/128 US gallon, 29.57 ml."
    "us_gal" ["us_gals"] "US gallon", VOLUME [Volume] US_GALLON; Us "231 in3, 3.785411784 l, exact."
    "imp_gal" ["imp_gals"] "imperial gallon", VOLUME [Volume] IMPERIAL_GALLON; Us "4.54609 l, exact."
    "cm4" ["cm⁴" "cm^4"] "centimetre to the fourth", SECOND_MOMENT [SecondMoment] one_over(100_000_000); Metric "10000 mm4; as section tables print second moments of area."
    "mm4" ["mm⁴" "mm^4"] "millimetre to the fourth", SECOND_MOMENT [SecondMoment] one_over(1_000_000_000_000); Metric "Second moment of area."
    "m4" ["m⁴" "m^4"] "metre to the fourth", SECOND_MOMENT [SecondMoment] Factor::ONE; Metric "Second moment of area, as of a waterplane."
    "in4" ["in⁴" "in^4"] "inch to the fourth", SECOND_MOMENT [SecondMoment] INCH_4; Us "41.62314256 cm4; as section tables print second moments of area."
    "ft4" ["ft⁴" "ft^4"] "foot to the fourth", SECOND_MOMENT [SecondMoment] FOOT_2.times(FOOT_2); Us "Second moment of area, as of a waterplane."
    // Time, speed, acceleration, flow.
    "s" ["sec" "secs" "second" "seconds"] "second", TIME [Time] Factor::ONE; Both "The SI unit of time."
    "min" ["mins" "minute" "minutes"] "minute", TIME [Time] MINUTE; Both "60 s."
    "h" ["hr" "hrs" "hour" "hours"] "hour", TIME [Time] HOUR; Both "60 min."
    "d" ["day" "days"] "day", TIME [Time] whole(24).times(HOUR); Both "24 h."
    "m/s" [] "metre per second", SPEED [Speed] Factor::ONE; Metric "The SI unit of speed."
    "m/min" [] "metre per minute", SPEED [Speed] Factor::ONE.over(MINUTE); Metric "As hoisting and travel speeds are stated."
    "mm/s" [] "millimetre per second", SPEED [Speed] one_over(1_000); Metric "As jacking and strand speeds are stated."
    "mm/min" [] "millimetre per minute", SPEED [Speed] one_over(1_000).over(MINUTE); Metric "As slow jacking and skidding are stated."
    "km/h" ["kph"] "kilometre per hour", SPEED [Speed] whole(1_000).over(HOUR); Metric "1/3.6 m/s."
    "mph" ["mi/h"] "mile per hour", SPEED [Speed] MILE.over(HOUR); Us "0.44704 m/s, exact."
    "ft/s" ["fps"] "foot per second", SPEED [Speed] FOOT; Us "0.3048 m/s, exact."
    "ft/min" ["fpm"] "foot per minute", SPEED [Speed] FOOT.over(MINUTE); Us "0.00508 m/s, exact; as hoisting and travel speeds are stated."
    "in/min" ["ipm"] "inch per minute", SPEED [Speed] INCH.over(MINUTE); Us "As jacking speeds are stated."
    "knot" ["knots"] "knot", SPEED [Speed] whole(1_852).over(HOUR); Both "1.852 km/h, exact; wind and current at sea."
    "m/s2" ["m/s²" "m/s^2"] "metre per second squared", ACCELERATION [Acceleration] Factor::ONE; Metric "The SI unit of acceleration."
    "ft/s2" ["ft/s²" "ft/s^2"] "foot per second squared", ACCELERATION [Acceleration] FOOT; Us "0.3048 m/s2, exact."
    "gn" ["g_n"] "standard gravity", ACCELERATION [Acceleration] GRAVITY; Both "9.80665 m/s2, exact. A bare g is the gram."
    "l/min" ["L/min" "lpm"] "litre per minute", FLOW [Flow] one_over(60_000); Metric "As hydraulic pumps are rated."
    "l/s" ["L/s"] "litre per second", FLOW [Flow] one_over(1_000); Metric "60 l/min."
    "m3/h" ["m³/h"] "cubic metre per hour", FLOW [Flow] Factor::ONE.over(HOUR); Metric "As bilge and ballast pumps are rated."
    "m3/s" ["m³/s"] "cubic metre per second", FLOW [Flow] Factor::ONE; Metric "The SI unit of flow."
    "us_gal/min" [] "US gallon per minute", FLOW [Flow] US_GALLON.over(MINUTE); Us "3.785411784 l/min."
    "imp_gal/min" [] "imperial gallon per minute", FLOW [Flow] IMPERIAL_GALLON.over(MINUTE); Us "4.54609 l/min."
    // Temperature.
    "degC" ["°C" "celsius"] "degree Celsius", TEMPERATURE [Temperature] Factor::ONE, offset Factor::new(27_315, 100); Metric "0 degC is 273.15 K."
    "degF" ["°F" "fahrenheit"] "degree Fahrenheit", TEMPERATURE [Temperature] Factor::new(5, 9), offset Factor::new(45_967, 100); Us "32 degF is 0 degC."
    "K" ["kelvin"] "kelvin", TEMPERATURE [Temperature] Factor::ONE; Metric "The SI unit of temperature. The kip is written kip or k."
};
