//! Concentrated loads on masonry and its strength by EN 1996-1-1, by a public repository of an engineer;
//! `libraries/run_pymasonry.py` prints them, one row is the output that the repository's own notebook shows.

use super::{Group, Seen, Source, Within, row};

/// The source.
#[rustfmt::skip]
pub const SOURCE: Source = Source {
    name: "pymasonry",
    document: "repository paulevalentine/pyMasonry at commits 0e8b3b4 (Padstone) and 3398640 (test/test.ipynb)",
    seen: Seen::Library,
    groups: &[
        Group { topic: "masonry strength", function: "f_k", rows: &[
            row("Padstone case 3, fk",
                "fk 3.7983 lefm 1354.701 beta 1.4 capacity 84.688 kN",
                "k=0.5;fb_n_mm2=10;fm_n_mm2=4", "", 3.7983, Within::Digits(5e-05)),
            row("Padstone case 4, fk",
                "fk 4.8735 lefm 1685.641 beta 1.5 capacity 81.225 kN",
                "k=0.75;fb_n_mm2=8;fm_n_mm2=4", "", 4.8735, Within::Digits(5e-05)),
            row("test/test.ipynb, Wall(1.38*3.5, 4, 0.75, ...)",
                "fk = 3.42MPa",
                "k=0.75;fb_n_mm2=4.83;fm_n_mm2=4", "", 3.42, Within::Digits(0.005)),
        ] },
        Group { topic: "masonry concentrated load", function: "n_rdc_concentrated", rows: &[
            row("Padstone case 1, beta",
                "fk 6.1703 lefm 669.615 beta 1.3789 capacity 48.452 kN",
                "lb_mm=150;t_mm=102.5;hc_mm=900;a1_mm=300;f_k_n_mm2=6.1703;gamma_m=2.7;left_mm=300;right_mm=5000", "/beta", 1.3789, Within::Digits(5e-05)),
            row("Padstone case 1, capacity",
                "fk 6.1703 lefm 669.615 beta 1.3789 capacity 48.452 kN",
                "lb_mm=150;t_mm=102.5;hc_mm=900;a1_mm=300;f_k_n_mm2=6.1703;gamma_m=2.7;left_mm=300;right_mm=5000", "/n_rdc_kn", 48.452, Within::Share(0.0001, "f_k goes in as printed, with four decimals")),
            row("Padstone case 2, beta",
                "fk 3.0852 lefm 561.410 beta 1.0787 capacity 27.164 kN",
                "lb_mm=215;t_mm=102.5;hc_mm=1200;a1_mm=0;f_k_n_mm2=3.0852;gamma_m=2.7;left_mm=0.001;right_mm=5000", "/beta", 1.0787, Within::Digits(5e-05)),
            row("Padstone case 2, capacity",
                "fk 3.0852 lefm 561.410 beta 1.0787 capacity 27.164 kN",
                "lb_mm=215;t_mm=102.5;hc_mm=1200;a1_mm=0;f_k_n_mm2=3.0852;gamma_m=2.7;left_mm=0.001;right_mm=5000", "/n_rdc_kn", 27.164, Within::Share(0.0001, "f_k goes in as printed, with four decimals")),
            row("Padstone case 3, beta",
                "fk 3.7983 lefm 1354.701 beta 1.4 capacity 84.688 kN",
                "lb_mm=200;t_mm=215;hc_mm=2000;a1_mm=600;f_k_n_mm2=3.7983;gamma_m=2.7;left_mm=600;right_mm=600", "/beta", 1.4, Within::Digits(5e-05)),
            row("Padstone case 3, capacity",
                "fk 3.7983 lefm 1354.701 beta 1.4 capacity 84.688 kN",
                "lb_mm=200;t_mm=215;hc_mm=2000;a1_mm=600;f_k_n_mm2=3.7983;gamma_m=2.7;left_mm=600;right_mm=600", "/n_rdc_kn", 84.688, Within::Share(0.0001, "f_k goes in as printed, with four decimals")),
            row("Padstone case 3, effective length",
                "fk 3.7983 lefm 1354.701 beta 1.4 capacity 84.688 kN",
                "lb_mm=200;t_mm=215;hc_mm=2000;a1_mm=600;f_k_n_mm2=3.7983;gamma_m=2.7;left_mm=600;right_mm=600", "/lefm_mm", 1354.701, Within::Digits(0.0005)),
            row("Padstone case 4, beta",
                "fk 4.8735 lefm 1685.641 beta 1.5 capacity 81.225 kN",
                "lb_mm=300;t_mm=100;hc_mm=2400;a1_mm=1500;f_k_n_mm2=4.8735;gamma_m=2.7;left_mm=1500;right_mm=2500", "/beta", 1.5, Within::Digits(5e-05)),
            row("Padstone case 4, capacity",
                "fk 4.8735 lefm 1685.641 beta 1.5 capacity 81.225 kN",
                "lb_mm=300;t_mm=100;hc_mm=2400;a1_mm=1500;f_k_n_mm2=4.8735;gamma_m=2.7;left_mm=1500;right_mm=2500", "/n_rdc_kn", 81.225, Within::Share(0.0001, "f_k goes in as printed, with four decimals")),
            row("Padstone case 5, beta",
                "fk 3.4233 lefm 498.205 beta 1.1971 capacity 26.562 kN",
                "lb_mm=175;t_mm=100;hc_mm=600;a1_mm=150;f_k_n_mm2=3.4233;gamma_m=2.7;left_mm=150;right_mm=900", "/beta", 1.1971, Within::Digits(5e-05)),
            row("Padstone case 5, capacity",
                "fk 3.4233 lefm 498.205 beta 1.1971 capacity 26.562 kN",
                "lb_mm=175;t_mm=100;hc_mm=600;a1_mm=150;f_k_n_mm2=3.4233;gamma_m=2.7;left_mm=150;right_mm=900", "/n_rdc_kn", 26.562, Within::Share(0.0001, "f_k goes in as printed, with four decimals")),
            row("Padstone case 5, effective length",
                "fk 3.4233 lefm 498.205 beta 1.1971 capacity 26.562 kN",
                "lb_mm=175;t_mm=100;hc_mm=600;a1_mm=150;f_k_n_mm2=3.4233;gamma_m=2.7;left_mm=150;right_mm=900", "/lefm_mm", 498.205, Within::Digits(0.0005)),
        ] },
    ],
};
