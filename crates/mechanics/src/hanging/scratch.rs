use super::elastic::*; use super::numbers::*; use super::family::*; use super::outcome::*; use super::search::*;
fn rig(k:f64)->OneHook{ let s=1.5; OneHook{weight:3.0e5,cg:V3::new(0.05,-0.03,0.7),up:V3::z(),points:vec![V3::new(s,s,1.6),V3::new(-s,s,1.6),V3::new(-s,-s,1.6),V3::new(s,-s,1.6)],length:vec![4.0;4],stiffness:vec![k;4]}}
#[test] fn s(){
 let r=rig(1.5e7); let h0=held(&r); println!("{h0:?}"); let t=std::time::Instant::now(); let p=settle(&r,h0); println!("{p:?} {:?}",t.elapsed());
 for s in subsets(4){ println!("{s:?} {:?}", chosen(&r,&s)); }
 let mut b=vec![(Param::Weight,2.8e5,3.2e5)]; for a in 0..3{b.push((Param::Cg(a),r.cg[a]-0.06,r.cg[a]+0.06));}
 for i in 0..4{b.push((Param::Length(i),3.99,4.01));} for i in 0..4{b.push((Param::Stiffness(i),1.2e7,1.8e7));}
 let f=Family::new(r.clone(),Level{x:V3::x(),y:V3::y()},vec![4.01;4],Way::Elastic,&b);
 let aims=aims(4);
 for _ in 0..3{ let t=std::time::Instant::now(); let Ok(found)=search(&f,&aims) else {panic!()}; println!("{:?} points {}",t.elapsed(),found.points.len());
 for (a,b) in aims.iter().zip(&found.best){ println!("{a:?} {:?}", b.map(|b|(found.points[b].values[a.said.place(4)],b)));} }
 // slopes against differences
 let mid:Vec<f64>=f.lo.iter().zip(&f.hi).map(|(a,b)|0.3*a+0.7*b).collect();
 let Answer::Stands(p)=f.evaluate(&mid,None) else {panic!()};
 let mut worst:f64=0.0;
 for j in 0..mid.len(){ let d=(f.hi[j]-f.lo[j])*1e-4; let mut a=mid.clone(); a[j]+=d; let mut c=mid.clone(); c[j]-=d;
  let (Answer::Stands(a),Answer::Stands(c))=(f.evaluate(&a,None),f.evaluate(&c,None)) else {panic!()};
  for r in 0..p.values.len(){ let n=(a.values[r]-c.values[r])/(2.0*d); let s=p.slopes_of(r)[j]; let e=(n-s).abs()/(n.abs()+s.abs()+1e-9*p.values[r].abs()); if e>1e-3 && (n.abs()*(f.hi[j]-f.lo[j]))>1e-6*p.values[r].abs() {println!("row {r} param {j}: {n} {s}");} worst=worst.max(e);} }
 println!("worst {worst}");
}
